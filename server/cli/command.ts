/** The shape of a command: what `--help` says of it and what it does. What it needs is loaded when it runs, not before. */
import type { Surroundings } from "./surroundings.ts";

/** 0 nothing wrong; 1 errors found, differences, refusals; 2 wrong usage, an unreadable file, an internal error. */
export type ExitStatus = 0 | 1 | 2;

export interface CommandOption {
  /** As the argument library writes it: `--format <format>`, `--strict`, `-o, --output <path>`. */
  readonly flags: string;
  readonly about: string;
  /** The only values taken. */
  readonly choices?: readonly string[];
  readonly fallback?: string;
  /** May stand more than once; its value is then a list. */
  readonly repeated?: boolean;
  /** A day, `YYYY-MM-DD`. */
  readonly day?: boolean;
}

/** Values by the option's long name in camel case. */
export type OptionValues = Readonly<Record<string, string | boolean | readonly string[] | undefined>>;

export interface Command {
  readonly name: string;
  /** One sentence, for the list of commands. */
  readonly about: string;
  /** As the argument library writes them: `[path...]`, `<file>`; with what each is. */
  readonly arguments: readonly { readonly name: string; readonly about: string }[];
  readonly options: readonly CommandOption[];
  /**
   * Reads sites, whose files may be sealed, and takes `--identity`. `names`: where one stays shut it goes on with what is known by
   * name. `needs`: it ends there.
   */
  readonly sealed?: "names" | "needs";
  /** Command lines that work in the repository's folder, `mullion` left out: each is run by a test. */
  readonly examples: readonly { readonly line: string; readonly shows: string }[];
  readonly run: (words: readonly string[], options: OptionValues, around: Surroundings) => Promise<ExitStatus>;
}

/** An option's single value. */
export function textOf(options: OptionValues, name: string): string | undefined {
  const value = options[name];
  return typeof value === "string" ? value : undefined;
}

/** A repeated option's values. */
export function listOf(options: OptionValues, name: string): readonly string[] {
  const value = options[name];
  return Array.isArray(value) ? value : [];
}
