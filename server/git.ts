/** The git command, and files as they were at a revision: asked of it, which is not needed for anything else. */
import { execFileSync } from "node:child_process";
import { dirname, relative, sep } from "node:path";
import { parse } from "../grammar/parse.ts";
import type { FileId, SourceFile } from "../shared/finding.ts";
import { ToolProblem } from "./tool-problem.ts";

/** The largest answer that git may give, in bytes. */
const largestAnswer = 64 * 1024 * 1024;

/**
 * What opens files as they were at `revision`. A file that was not there then is not found.
 *
 * @param root a file of the working tree, by which the repository is found
 * @throws ToolProblem without git, outside a repository, and for a revision that it does not have
 */
export function filesAt(root: FileId, revision: string): (file: FileId) => SourceFile | undefined {
  const folder = dirname(root);
  const top = askGit(folder, ["rev-parse", "--show-toplevel"], `${root} is in no git repository`).toString().trimEnd();
  // Told apart from an option, and as a commit: `REV^{commit}` fails for anything else.
  const commit = askGit(
    folder,
    ["rev-parse", "--verify", "--quiet", "--end-of-options", `${revision}^{commit}`],
    `git knows no revision ${revision}`,
  )
    .toString()
    .trim();
  const opened = new Map<FileId, SourceFile | undefined>();
  return file => {
    if (!opened.has(file)) opened.set(file, read(file));
    return opened.get(file);
  };

  function read(file: FileId): SourceFile | undefined {
    const path = relative(top, file).split(sep).join("/");
    if (path.startsWith("..")) return undefined;
    const said = git(top, ["show", `${commit}:${path}`]);
    if (!Buffer.isBuffer(said)) return undefined;
    const text = said.toString("utf8");
    return { file, text, ...parse(text) };
  }
}

/**
 * What git answers, as bytes.
 *
 * @param input what it reads from its standard input
 * @throws ToolProblem without git, and with the words of `otherwise` where git refuses
 */
export function askGit(folder: string, words: readonly string[], otherwise: string, input?: string): Buffer {
  const said = git(folder, words, input);
  if (Buffer.isBuffer(said)) return said;
  throw new ToolProblem(said.absent ? "git is not to be found; earlier revisions and what is staged are read with it" : otherwise);
}

function git(folder: string, words: readonly string[], input?: string): Buffer | { readonly absent: boolean } {
  try {
    return execFileSync("git", ["-c", "core.fsmonitor=false", "-c", "core.quotePath=false", ...words], {
      cwd: folder,
      maxBuffer: input === undefined ? largestAnswer : Number.POSITIVE_INFINITY,
      stdio: [input === undefined ? "ignore" : "pipe", "pipe", "ignore"],
      ...(input === undefined ? {} : { input }),
      env: { ...process.env, GIT_OPTIONAL_LOCKS: "0" },
    });
  } catch (error) {
    return { absent: (error as NodeJS.ErrnoException).code === "ENOENT" };
  }
}
