/** A site read from its file: everything that it uses, directly or through others, and the fitted records beside them. */
import type { Use } from "../../grammar/tree.ts";
import type { FileId, SourceFile } from "../finding.ts";
import { fittedCompanions, resolvePath } from "./paths.ts";
import { resolveSite } from "./resolve.ts";
import type { Site } from "./site.ts";

/** One `use` and what became of it. `instead`: the path that would be found where this one is not. */
export type Used = Site["uses"][number];

/**
 * Loads a site and resolves it as far as it can be; never fails. Missing files and files that use each other are findings.
 *
 * @param root the file that the site is named by; a site without files where it cannot be opened.
 * @param open gives a file as read and parsed, undefined where there is none. It is asked once for each file. Of a sealed file it
 * gives the text that was sealed, or where nobody opened it what `shutFile` makes.
 */
export function loadSite(root: FileId, open: (file: FileId) => SourceFile | undefined): Site {
  const opened = new Map<FileId, SourceFile | undefined>();
  const openOnce = (file: FileId) => {
    if (!opened.has(file)) opened.set(file, open(file));
    return opened.get(file);
  };
  const files: SourceFile[] = [];
  const uses: Used[] = [];
  const seen = new Set<FileId>();

  // An explicit stack, since a long chain of files must not be the end of the program's own.
  const waiting: FileId[] = [root];
  for (let file = waiting.pop(); file !== undefined; file = waiting.pop()) {
    if (seen.has(file)) continue;
    const source = openOnce(file);
    if (!source) continue;
    seen.add(file);
    files.push(source);
    const next: FileId[] = [...fittedCompanions(file)];
    for (const node of source.tree.declarations) {
      if (node.kind !== "use") continue;
      const used = follow(source.file, node, openOnce);
      uses.push(used);
      if (used.found && used.target !== undefined) next.push(used.target);
    }
    for (const file of next.reverse()) waiting.push(file);
  }
  return resolveSite(root, files, uses);
}

function follow(file: FileId, node: Use, open: (file: FileId) => SourceFile | undefined): Used {
  const written = node.path?.text;
  if (!written) return { file, node, found: false };
  const target = resolvePath(file, written);
  if (open(target)) return { file, node, target, found: true };
  const likely = [written.replaceAll("\\", "/"), `${written}.mullion`, `${written.replaceAll("\\", "/")}.mullion`, `${written}.age`];
  const instead = likely.find(path => path !== written && open(resolvePath(file, path)) !== undefined);
  return { file, node, target, found: false, ...(instead === undefined ? {} : { instead }) };
}
