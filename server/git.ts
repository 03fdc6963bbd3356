/** Files as they were at a revision: asked of the git command, which is not needed for anything else. */
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
  const top = asked(folder, ["rev-parse", "--show-toplevel"], `${root} is in no git repository`).trimEnd();
  // Told apart from an option, and as a commit: `REV^{commit}` fails for anything else.
  const commit = asked(
    folder,
    ["rev-parse", "--verify", "--quiet", "--end-of-options", `${revision}^{commit}`],
    `git knows no revision ${revision}`,
  ).trim();
  const opened = new Map<FileId, SourceFile | undefined>();
  return file => {
    if (!opened.has(file)) opened.set(file, read(file));
    return opened.get(file);
  };

  function read(file: FileId): SourceFile | undefined {
    const path = relative(top, file).split(sep).join("/");
    if (path.startsWith("..")) return undefined;
    const text = git(top, ["show", `${commit}:${path}`]);
    return typeof text === "string" ? { file, text, ...parse(text) } : undefined;
  }
}

function asked(folder: string, words: readonly string[], otherwise: string): string {
  const said = git(folder, words);
  if (typeof said === "string") return said;
  throw new ToolProblem(said.absent ? "git is not to be found; earlier revisions are read with it" : otherwise);
}

function git(folder: string, words: readonly string[]): string | { readonly absent: boolean } {
  try {
    return execFileSync("git", ["-c", "core.fsmonitor=false", "-c", "core.quotePath=false", ...words], {
      cwd: folder,
      encoding: "utf8",
      maxBuffer: largestAnswer,
      stdio: ["ignore", "pipe", "ignore"],
      env: { ...process.env, GIT_OPTIONAL_LOCKS: "0" },
    });
  } catch (error) {
    return { absent: (error as NodeJS.ErrnoException).code === "ENOENT" };
  }
}
