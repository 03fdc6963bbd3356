/** The git command: the one place that starts it. Nothing but earlier revisions, what is staged and the numbers of sheets needs it. */
import { execFileSync } from "node:child_process";
import { existsSync } from "node:fs";
import { dirname } from "node:path";
import { ToolProblem } from "./tool-problem.ts";

/** The largest answer that git may give where it is not asked for whole files or for a list of all, in bytes. */
const largestAnswer = 64 * 1024 * 1024;

/** How long git may take to say something that can be done without, in milliseconds. */
const patience = 5000;

interface Ask {
  /** What it reads from its standard input. */
  readonly input?: string;
  /** Milliseconds. */
  readonly timeout?: number;
}

/**
 * What git answers, as bytes.
 *
 * @param input what it reads from its standard input, `""` for nothing; with one the answer may be of any length
 * @throws ToolProblem without git, and with the words of `otherwise` where git refuses
 */
export function askGit(folder: string, words: readonly string[], otherwise: string, input?: string): Buffer {
  const said = started(folder, words, input === undefined ? {} : { input });
  if (Buffer.isBuffer(said)) return said;
  throw new ToolProblem(said.absent ? "git is not to be found; earlier revisions and what is staged are read with it" : otherwise);
}

/** What git says that can be done without, as text; undefined without git, and where it refuses or takes too long. */
export function saidByGit(folder: string, ...words: readonly string[]): string | undefined {
  const said = started(folder, words, { timeout: patience });
  return Buffer.isBuffer(said) ? said.toString().trim() : undefined;
}

/** The folder, or the nearest one above it that is there: git is started in one. */
export function thereAbove(folder: string): string {
  let at = folder;
  while (!existsSync(at) && dirname(at) !== at) at = dirname(at);
  return at;
}

function started(folder: string, words: readonly string[], { input, timeout }: Ask): Buffer | { readonly absent: boolean } {
  try {
    return execFileSync("git", ["-c", "core.fsmonitor=false", "-c", "core.quotePath=false", ...words], {
      cwd: folder,
      maxBuffer: input === undefined ? largestAnswer : Number.POSITIVE_INFINITY,
      stdio: [input === undefined ? "ignore" : "pipe", "pipe", "ignore"],
      ...(input === undefined ? {} : { input }),
      ...(timeout === undefined ? {} : { timeout }),
      env: { ...process.env, GIT_OPTIONAL_LOCKS: "0" },
    });
  } catch (error) {
    return { absent: (error as NodeJS.ErrnoException).code === "ENOENT" && existsSync(folder) };
  }
}
