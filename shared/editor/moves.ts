/** What has to change in the texts when files or folders move: the paths after `use`, on both ends. */
import type { Edit, FileId, SourceFile } from "../finding.ts";
import { escaped } from "../quoted.ts";
import { fittedCompanion, relativePath, resolvePath } from "../site/paths.ts";

export interface Move {
  /** A file or a folder. */
  readonly from: FileId;
  readonly to: FileId;
}

/**
 * Edits of the texts where they are now, before anything has moved. Paths that still lead where they led are left as written, and so
 * are those that lead nowhere: the move may be what mends them.
 */
export function moveEdits(sources: readonly SourceFile[], moves: readonly Move[]): readonly Edit[] {
  const there = new Set(sources.map(({ file }) => file));
  const edits: Edit[] = [];
  for (const { file, tree, text } of sources) {
    const here = moved(file, moves);
    for (const declaration of tree.declarations) {
      if (declaration.kind !== "use" || !declaration.path?.text) continue;
      const { start, end, text: written } = declaration.path;
      const used = resolvePath(file, written);
      if (!there.has(used)) continue;
      const target = moved(used, moves);
      if (resolvePath(here, written) === target) continue;
      const path = escaped(relativePath(here, target));
      if (text[end - 1] === '"') edits.push({ file, start: start + 1, end: end - 1, text: path });
    }
  }
  return edits;
}

/** The fitted records that belong to files that get another name or folder, where nobody moves them already. */
export function recordsAlong(sources: readonly SourceFile[], moves: readonly Move[]): readonly Move[] {
  const there = new Set(sources.map(({ file }) => file));
  return [...there].flatMap((file): readonly Move[] => {
    const record = fittedCompanion(file);
    const to = fittedCompanion(moved(file, moves));
    if (record === undefined || to === undefined || !there.has(record) || there.has(to)) return [];
    return moved(record, moves) === to ? [] : [{ from: record, to }];
  });
}

/** Where a file is after the moves. */
function moved(file: FileId, moves: readonly Move[]): FileId {
  for (const { from, to } of moves) {
    if (file === from) return to;
    if (file.startsWith(`${from}/`)) return to + file.slice(from.length);
  }
  return file;
}
