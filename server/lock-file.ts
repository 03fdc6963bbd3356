/** One run at a time at a file: a second one waits for the first, and one that was killed is forgotten. */
import { closeSync, openSync, readFileSync, rmSync, writeSync } from "node:fs";
import { systemReason, ToolProblem } from "./tool-problem.ts";

/** How long a run waits for another one, and how often it looks, in milliseconds. */
const patience = 10_000;
const pause = 25;

/**
 * Does some work on a file while no other run of this program does.
 *
 * @param shown the path as the person typed it, for the message
 * @throws ToolProblem where another run does not end, or no lock can be put beside the file
 */
export function whileLocked<T>(path: string, shown: string, work: () => T): T {
  const lock = `${path}.lock`;
  const until = Date.now() + patience;
  while (!taken(lock, shown)) {
    if (!isHeld(lock)) rmSync(lock, { force: true });
    else if (Date.now() > until) throw new ToolProblem(`another run is at ${shown}; if none is, remove ${shown}.lock`);
    else Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, pause);
  }
  try {
    return work();
  } finally {
    rmSync(lock, { force: true });
  }
}

function taken(lock: string, shown: string): boolean {
  try {
    const file = openSync(lock, "wx", 0o600);
    writeSync(file, String(process.pid));
    closeSync(file);
    return true;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "EEXIST") return false;
    throw new ToolProblem(`cannot write beside ${shown}: ${systemReason(error)}`);
  }
}

/** By a process that is alive. A lock that is being made has no number in it yet and is somebody's. */
function isHeld(lock: string): boolean {
  try {
    const holder = Number(readFileSync(lock, "utf8"));
    if (!Number.isInteger(holder) || holder < 1) return true;
    process.kill(holder, 0);
    return true;
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    return code === "EPERM";
  }
}
