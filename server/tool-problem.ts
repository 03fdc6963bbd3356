/** A problem of the tool's surroundings or of how it was called: never of what a text says, and never holding a code. */
export class ToolProblem extends Error {
  override readonly name = "ToolProblem";
}

/** What the operating system says, in words. `what` is a path as the person typed it. */
export function systemReason(error: unknown): string {
  const code = error instanceof Error && "code" in error ? String(error.code) : "";
  return reasons.get(code) ?? (code ? `the system says ${code}` : "the system gives no reason");
}

const reasons: ReadonlyMap<string, string> = new Map([
  ["ENOENT", "there is no such file or folder"],
  ["ENOTDIR", "a part of the path is not a folder"],
  ["EACCES", "permission denied"],
  ["EPERM", "permission denied"],
  ["EISDIR", "it is a folder"],
  ["ELOOP", "its links lead round in a loop"],
  ["ENAMETOOLONG", "the name is too long"],
  ["ENOSPC", "no space left on the device"],
  ["EDQUOT", "no space left in the quota"],
  ["EFBIG", "the file would be too large"],
  ["EROFS", "the file system is read-only"],
  ["EMFILE", "too many files are open"],
  ["EIO", "the device cannot be read or written"],
]);
