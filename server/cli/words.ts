/**
 * The words behind `mullion`, read where nothing has to be explained: a command, its operands, its options in full, every value as it
 * should be. All else (help, a suggestion, what is wrong) is left to the argument library, which takes longer to load than a small
 * site to parse, and reads these words in the same way.
 */
import type { Command, CommandOption, OptionValues } from "./command.ts";
import { isDay } from "./day.ts";

export interface PlainWords {
  readonly command: Command;
  readonly operands: readonly string[];
  readonly options: OptionValues;
}

/** Undefined where anything is out of the ordinary. */
export function plainWords([name, ...words]: readonly string[], commands: readonly Command[]): PlainWords | undefined {
  const command = commands.find(each => each.name === name);
  if (!command) return undefined;
  const operands: string[] = [];
  const options: Record<string, string | boolean | readonly string[]> = {};
  for (const { flags, fallback } of command.options) if (fallback !== undefined) options[keyOf(flags)] = fallback;
  while (words.length > 0) {
    const word = words.shift() as string;
    if (!isFlag(word)) {
      operands.push(word);
      continue;
    }
    const option = command.options.find(({ flags }) => flags.split(/[ ,]+/).includes(word));
    if (!option) return undefined;
    const key = keyOf(option.flags);
    if (!option.flags.includes("<")) {
      options[key] = true;
      continue;
    }
    const value = words.shift();
    if (value === undefined || isFlag(value) || !isTaken(value, option)) return undefined;
    const before = options[key];
    options[key] = option.repeated ? [...(Array.isArray(before) ? before : []), value] : value;
  }
  return takes(command, operands.length) ? { command, operands, options } : undefined;
}

/** A dash alone is a value: standard output. */
function isFlag(word: string): boolean {
  return word.startsWith("-") && word !== "-";
}

/** `--hide-codes` is `hideCodes`. */
function keyOf(flags: string): string {
  const [, long = ""] = /--([a-z-]+)/.exec(flags) ?? [];
  return long.replace(/-([a-z])/g, (_, letter: string) => letter.toUpperCase());
}

function isTaken(value: string, { choices, day }: CommandOption): boolean {
  return (!choices || choices.includes(value)) && (!day || isDay(value));
}

function takes({ arguments: wanted }: Command, count: number): boolean {
  const least = wanted.filter(({ name }) => name.startsWith("<")).length;
  return count >= least && (count <= wanted.length || wanted.some(({ name }) => name.includes("...")));
}
