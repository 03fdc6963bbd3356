/** For whom files are sealed: the plain list beside a sealed file, one recipient a line, as the tools of the format read it. */
import { createHash } from "node:crypto";
import type { FileId } from "../../shared/finding.ts";
import { recipientsFile } from "../../shared/sealed/names.ts";
import { readText } from "../files.ts";
import { ToolProblem } from "../tool-problem.ts";
import { age } from "./load.ts";

/**
 * The recipients of a list, each once.
 *
 * @param shown the list's path as a person would type it
 * @throws ToolProblem where it cannot be read, holds none, or one that cannot be sealed for
 */
export async function recipientsIn(list: FileId, shown: string): Promise<readonly string[]> {
  const read = readText(list);
  if ("absent" in read) throw new ToolProblem(`no such file: ${shown}`);
  if (!("text" in read)) throw new ToolProblem(`cannot read ${shown}: ${"unreadable" in read ? read.unreadable : "it is sealed"}`);
  const { isRecipient } = await age();
  const recipients = new Set<string>();
  for (const [index, whole] of read.text
    .replace(/^\ufeff/, "")
    .split(/\r\n|[\r\n]/)
    .entries()) {
    const line = whole.trim();
    if (line === "" || line.startsWith("#")) continue;
    if (line.toUpperCase().startsWith("AGE-SECRET-KEY-"))
      throw new ToolProblem(
        `${shown}, line ${index + 1}, is an identity, which nobody else may see; a recipient begins with age1. Make a new identity if anybody has`,
      );
    if (!isRecipient(line))
      throw new ToolProblem(`${shown}, line ${index + 1}, is no recipient that can be sealed for; one begins with age1`);
    recipients.add(line);
  }
  if (recipients.size === 0) throw new ToolProblem(`${shown} names no recipient`);
  return [...recipients];
}

/** Where the recipients of a sealed file stand: in its own list, or for a record in that of a file that its site seals. */
export function listFor(sealed: FileId, others: readonly FileId[], isThere: (file: FileId) => boolean): FileId | undefined {
  return [sealed, ...others].map(recipientsFile).find(isThere);
}

/** A short digest of who may read, in whatever order they are named: tells that they are still the same. */
export function readersDigest(recipients: readonly string[]): string {
  return createHash("sha256")
    .update([...recipients].sort().join("\n"))
    .digest("hex")
    .slice(0, 16);
}
