/** The secret behind the numbers of a site's run sheets, and the numbers that such a sheet may carry. */
import { dirname } from "node:path";
import type { FileId } from "../shared/finding.ts";
import type { Plan } from "../shared/plan/plan.ts";
import { sheetNumbers } from "../shared/sheet/number.ts";
import { saidByGit } from "./git.ts";

/**
 * The key for `sheetNumber`, the same on every clone: `mullion.sheetKey` of git's configuration where somebody has set it, else
 * the id of the repository's first commit, which no paper carries. Undefined without git, without a commit, in a shallow
 * clone, and where a file is sealed: whoever reads that repository must not be able to try codes against a sheet's number,
 * and knows its first commit. A number made without a key covers only the codes that stand on the same sheet.
 *
 * @param files the files of one site, its own first
 */
export function sheetKey(files: readonly FileId[]): string | undefined {
  const [root] = files;
  if (root === undefined) return undefined;
  const folder = dirname(root);
  const configured = saidByGit(folder, "config", "--get", "mullion.sheetKey");
  if (configured) return configured;
  if (files.some(file => file.endsWith(".age"))) return undefined;
  if (saidByGit(folder, "rev-parse", "--is-shallow-repository") !== "false") return undefined;
  // Histories that were joined have several first commits; the order of their ids is the same on every clone.
  return saidByGit(folder, "rev-list", "--max-parents=0", "HEAD")?.split("\n").sort()[0] || undefined;
}

/**
 * Every number that a sheet of this plan may carry, for `record` to compare with: with and without its codes, and also made
 * without the key, as the editor makes it, which starts no program, and as it was before the first commit.
 */
export function numbersOf(keypad: string, plan: Plan, files: readonly FileId[]): readonly string[] {
  const key = sheetKey(files);
  return [...new Set([...(key === undefined ? [] : sheetNumbers(keypad, plan, key)), ...sheetNumbers(keypad, plan)])];
}
