/**
 * Opening sealed files while a command reads a site. Reading is done at once and opening takes its time: a command that meets a
 * sealed file ends there, the file is opened, and the command is begun again, before it has said or written anything.
 */
import type { FileId } from "../shared/finding.ts";
import { readNames } from "../shared/sealed/names.ts";
import { giveIdentity, noIdentity } from "../shared/sealed/shut.ts";
import { baseName } from "../shared/site/paths.ts";
import { ToolProblem } from "./tool-problem.ts";

/** What became of a sealed file. */
export type Unsealed =
  /** `passphrase`: the one that opened it, where it was sealed with one. */
  | { readonly text: string; readonly passphrase?: string }
  /** Nothing that is at hand opens it, in words. */
  | { readonly shut: string }
  /** It is damaged, in words. */
  | { readonly unreadable: string };

/** A sealed file as it was met. */
export interface Met {
  readonly file: FileId;
  readonly bytes: Uint8Array;
  /** How many bytes its names file says that it has. */
  readonly bytesSaid?: number;
}

/** A sealed file as it is met. @param names the text of its names file, where there is one */
export function metAs(file: FileId, bytes: Uint8Array, names: string | undefined): Met {
  const bytesSaid = names === undefined ? undefined : readNames(names).sealedFor?.bytes;
  return { file, bytes, ...(bytesSaid === undefined ? {} : { bytesSaid }) };
}

/** Why there is no text, in words. */
export function whyShut(result: Exclude<Unsealed, { readonly text: string }>): string {
  return "shut" in result ? result.shut : result.unreadable;
}

export interface Unsealing {
  /** Undefined where no identity is at hand. */
  readonly open?: (met: Met) => Promise<Unsealed>;
  /** A file that stays shut is no end: the command goes on with names. */
  readonly goesOnShut: boolean;
}

/** Thrown to begin again; never seen outside of this file. */
class SealedMet extends Error {
  override readonly name = "SealedMet";
  readonly met: Met;
  constructor(met: Met) {
    super("a sealed file is to be opened");
    this.met = met;
  }
}

interface Run extends Unsealing {
  /** By what the sealed file holds: the same file may be read as it is now and as it was. */
  readonly known: Map<string, Unsealed>;
}

let run: Run | undefined;

/** Does some work that reads sites, with the sealed files that it meets opened. One such work is done at a time. */
export async function withSealedOpened<T>(unsealing: Unsealing, work: () => Promise<T>): Promise<T> {
  const outer = run;
  const own: Run = { ...unsealing, known: new Map() };
  try {
    for (;;) {
      run = own;
      try {
        return await work();
      } catch (error) {
        if (!(error instanceof SealedMet) || !own.open) throw error;
        own.known.set(keyOf(error.met.bytes), await own.open(error.met));
      }
    }
  } finally {
    run = outer;
  }
}

/**
 * What is in a sealed file that was met.
 *
 * @throws ToolProblem where it stays shut and nothing can be done without; what begins the work again where it can be opened
 */
export function unsealed(met: Met): Unsealed {
  const known = run?.known.get(keyOf(met.bytes));
  if (!known && run?.open) throw new SealedMet(met);
  const result: Unsealed = known ?? { shut: noIdentity };
  if (run && !run.goesOnShut && "shut" in result)
    throw new ToolProblem(`${baseName(met.file)} is sealed, and ${result.shut}${known ? "" : `; ${giveIdentity}`}`);
  return result;
}

/**
 * A sealed file or a record that is there and cannot be read: what needs it does not go on as if it were not there.
 *
 * @throws ToolProblem where nothing can be done without
 */
export function mayGoOnWithout(file: FileId, reason: string): void {
  if (run && !run.goesOnShut) throw new ToolProblem(`cannot read ${baseName(file)}: ${reason}`);
}

/** The passphrase that opened some bytes in this run, where one did. */
export function passphraseOf(bytes: Uint8Array): string | undefined {
  const known = run?.known.get(keyOf(bytes));
  return known && "text" in known ? known.passphrase : undefined;
}

/** A passphrase that opened any file in this run. */
export function anyPassphrase(): string | undefined {
  for (const known of run?.known.values() ?? []) if ("text" in known && known.passphrase !== undefined) return known.passphrase;
  return undefined;
}

function keyOf(bytes: Uint8Array): string {
  return Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength).toString("latin1");
}
