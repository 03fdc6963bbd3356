/** One run at a time at a file: a second one waits for the first, and one that was killed is forgotten. */
import { closeSync, openSync, readFileSync, rmSync, statSync, writeSync } from "node:fs";
import { systemReason, ToolProblem } from "./tool-problem.ts";

/** How long a run waits for another one, and how often it looks, in milliseconds. */
const patience = 10_000;
const pause = 25;
/** Milliseconds after which a lock that nobody has put a number into is a killed run's: the number is written at once. */
const writingTakes = 5_000;

/**
 * Does some work on a file while no other run of this program does.
 *
 * @param shown the path as the person typed it, for the message
 * @throws ToolProblem where another run does not end, or no lock can be put beside the file
 */
export async function whileLocked<T>(path: string, shown: string, work: () => Promise<T>): Promise<T> {
  const lock = `${path}.lock`;
  const until = Date.now() + patience;
  while (!taken(lock, shown)) {
    if (!isHeld(lock)) sweep(lock);
    if (Date.now() > until) throw new ToolProblem(`another run is at ${shown}; if none is, remove ${shown}.lock`);
    else Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, pause);
  }
  try {
    return await work();
  } finally {
    rmSync(lock, { force: true });
  }
}

function taken(lock: string, shown: string): boolean {
  const problem = (error: unknown) => new ToolProblem(`cannot write beside ${shown}: ${systemReason(error)}`);
  let file: number;
  try {
    file = openSync(lock, "wx", 0o600);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "EEXIST") return false;
    throw problem(error);
  }
  try {
    writeSync(file, String(process.pid));
  } catch (error) {
    // On a full disk there is room for a name, and none for a number.
    rmSync(lock, { force: true });
    throw problem(error);
  } finally {
    closeSync(file);
  }
  return true;
}

/**
 * Removes the lock of a process that is gone. One run at a time may, and looks again: between another's look and its removal
 * the lock may have become that of a run that is alive.
 */
function sweep(lock: string): void {
  const sweeping = `${lock}.sweep`;
  try {
    closeSync(openSync(sweeping, "wx", 0o600));
  } catch {
    if (ageOf(sweeping) > writingTakes) rmSync(sweeping, { force: true });
    return;
  }
  try {
    if (!isHeld(lock)) rmSync(lock, { force: true });
  } finally {
    rmSync(sweeping, { force: true });
  }
}

/** By a process that is alive. A lock that went away meanwhile is nobody's to remove. */
function isHeld(lock: string): boolean {
  try {
    const holder = Number(readFileSync(lock, "utf8"));
    if (!Number.isInteger(holder) || holder < 1) return ageOf(lock) < writingTakes;
    process.kill(holder, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code !== "ESRCH";
  }
}

/** Milliseconds since a file was written; 0 where there is none. */
function ageOf(file: string): number {
  const stats = statSync(file, { throwIfNoEntry: false });
  return stats ? Date.now() - stats.mtimeMs : 0;
}
