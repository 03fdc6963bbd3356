/** Which files of a folder are to be checked as sites: one for each site, and the files that no site uses. */
import type { FileId, SourceFile } from "../finding.ts";
import { fittedCompanions, resolvePath } from "./paths.ts";

/**
 * The files to load so that each is checked: those with a `site`, then those that none of these reaches.
 * Of files without a site that use one another, only those at the top are roots.
 *
 * @param files every file there is, each once.
 * @returns in the order given.
 */
export function rootsOf(files: Iterable<SourceFile>): readonly FileId[] {
  const known = new Map<FileId, SourceFile>();
  for (const source of files) known.set(nameOf(source), source);
  const reached = new Set<FileId>();
  const roots = new Set<FileId>();
  const claim = (root: FileId) => {
    roots.add(root);
    for (const file of reachedFrom(root, known)) reached.add(file);
  };
  for (const [file, source] of known) if (source.tree.declarations.some(declaration => declaration.kind === "site")) claim(file);

  const used = new Set<FileId>();
  for (const source of known.values()) {
    for (const target of targetsOf(source, known)) if (target !== nameOf(source)) used.add(target);
  }
  for (const file of known.keys()) if (!reached.has(file) && !used.has(file)) claim(file);
  // What is left is used only by files that use each other: the first of each ring stands for it.
  for (const file of known.keys()) if (!reached.has(file)) claim(file);
  return [...known.keys()].filter(file => roots.has(file));
}

function reachedFrom(root: FileId, known: ReadonlyMap<FileId, SourceFile>): ReadonlySet<FileId> {
  const reached = new Set<FileId>([root]);
  for (const file of reached) {
    const source = known.get(file);
    if (source) for (const target of targetsOf(source, known)) reached.add(target);
  }
  return reached;
}

/** What a `use` calls it: of a sealed file that is shut, the source's own file is that of its names. */
function nameOf({ file, sealed }: SourceFile): FileId {
  return sealed?.file ?? file;
}

function targetsOf(source: SourceFile, known: ReadonlyMap<FileId, SourceFile>): readonly FileId[] {
  return usedBy(source).filter(target => known.has(target));
}

/** A file says the same each time it is asked, and of thousands in a folder one is typed into. */
const usedBefore = new WeakMap<SourceFile, readonly FileId[]>();

/** What a file uses, there or not. */
function usedBy(source: SourceFile): readonly FileId[] {
  const before = usedBefore.get(source);
  if (before) return before;
  const targets: FileId[] = [...fittedCompanions(nameOf(source))];
  for (const declaration of source.tree.declarations) {
    if (declaration.kind === "use" && declaration.path?.text) targets.push(resolvePath(source.file, declaration.path.text));
  }
  usedBefore.set(source, targets);
  return targets;
}
