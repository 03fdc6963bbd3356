/** Writes a file so that there is the old one or the new one, never half of either. */
import { randomBytes } from "node:crypto";
import type { Stats } from "node:fs";
import { closeSync, fchmodSync, fsyncSync, openSync, readdirSync, realpathSync, renameSync, rmSync, statSync, writeSync } from "node:fs";
import { basename, dirname, join } from "node:path";
import { must } from "../shared/must.ts";
import { isSealed } from "../shared/sealed/names.ts";
import { systemReason, ToolProblem } from "./tool-problem.ts";

/** Rights of a new file: a sheet holds codes, so it is its owner's alone. */
const ownerOnly = 0o600;

/**
 * Puts `text` in place of the file at `path`, or makes it. A link is written through; an existing file keeps its rights.
 *
 * @param shown the path as the person typed it, for the message
 * @throws ToolProblem when it cannot be written; the file is then as it was
 */
export function writeFileWhole(path: string, text: string | Uint8Array, shown: string): void {
  must(typeof text !== "string" || !isSealed(path), "a sealed file is written as sealed bytes");
  const refuse = (why: string) => new ToolProblem(`cannot write ${shown}: ${why}`);
  let temporary: string | undefined;
  try {
    const old = statSync(path, { throwIfNoEntry: false });
    if (old?.isDirectory()) throw refuse("it is a folder");
    if (old && !old.isFile()) throw refuse("it is a pipe or a device, not a file");
    if (old && !(old.mode & 0o222)) throw refuse("it is read-only");
    const target = old ? realpathSync(path) : path;
    sweepUp(target);
    temporary = `${temporaryBeginning(target)}${process.pid}-${randomBytes(4).toString("hex")}`;
    writeThrough(temporary, text, old);
    renameSync(temporary, target);
    temporary = undefined;
    settleFolder(dirname(target));
  } catch (error) {
    if (temporary) rmSync(temporary, { force: true });
    throw error instanceof ToolProblem ? error : refuse(systemReason(error));
  }
}

function writeThrough(path: string, text: string | Uint8Array, old: Stats | undefined): void {
  const file = openSync(path, "wx", ownerOnly);
  try {
    if (old) fchmodSync(file, old.mode & 0o777);
    const bytes = typeof text === "string" ? Buffer.from(text, "utf8") : text;
    for (let at = 0; at < bytes.length; ) at += writeSync(file, bytes, at);
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
}

/** The rename itself reaches the disk with its folder; not every system lets a folder be opened for that. */
function settleFolder(folder: string): void {
  try {
    const file = openSync(folder, "r");
    try {
      fsyncSync(file);
    } finally {
      closeSync(file);
    }
  } catch {
    // The file itself is complete either way.
  }
}

function temporaryBeginning(target: string): string {
  return join(dirname(target), `.${basename(target)}.mullion-`);
}

/** Removes what a run that was killed left beside the same file. */
function sweepUp(target: string): void {
  const beginning = basename(temporaryBeginning(target));
  for (const name of readdirSync(dirname(target))) {
    const writer = name.startsWith(beginning) ? /^(\d+)-[0-9a-f]{8}$/.exec(name.slice(beginning.length)) : null;
    if (writer && !isRunning(Number(writer[1]))) rmSync(join(dirname(target), name), { force: true });
  }
}

function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === "EPERM";
  }
}
