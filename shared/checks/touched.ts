/** Which keypads a place in a file touches: the sheets that an error there holds back. */
import type { Declaration } from "../../grammar/tree.ts";
import type { FileId, SourceFile } from "../finding.ts";
import type { Site } from "../site/site.ts";
import { keypadsOf } from "../site/where.ts";

/** Ids of the keypads that hang on the declaration at `offset`; empty where that cannot be said, which means all. */
export function touchedAt(site: Site, source: SourceFile, offset: number): readonly string[] {
  const declaration = declarationAt(source.tree.declarations, offset);
  return declaration ? touchedBy(site, source.file, declaration) : [];
}

/** Where no keypad hangs on it yet, none is held back. */
function touchedBy(site: Site, file: FileId, declaration: Declaration): readonly string[] {
  switch (declaration.kind) {
    case "keypad":
      return declaration.name ? [declaration.name.text] : [];
    case "fitted":
      return declaration.keypad ? [declaration.keypad.text] : [];
    case "holder": {
      const holder = declaration.name && site.holders.get(declaration.name.text);
      return holder?.file === file ? orNone(keypadsOf(site, holder)) : [];
    }
    case "model":
      return declaration.name ? orNone(keypadsWithModel(site, declaration.name.text)) : [];
    default:
      return [];
  }
}

export function keypadsWithModel(site: Site, model: string): readonly string[] {
  return [...site.keypads.values()].filter(keypad => keypad.node.model?.text === model).map(keypad => keypad.id);
}

/** No keypad has this id: an error with it alone holds back no sheet. */
export const noKeypad: readonly string[] = ["."];

/** Keypads that are touched, said so that none does not mean all. */
export function orNone(keypads: readonly string[]): readonly string[] {
  return keypads.length > 0 ? keypads : noKeypad;
}

/** Declarations are in order and do not overlap; the end counts, since what is missing is reported there. */
function declarationAt(declarations: readonly Declaration[], offset: number): Declaration | undefined {
  let low = 0;
  let high = declarations.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((declarations[middle]?.end ?? 0) < offset) low = middle + 1;
    else high = middle;
  }
  const here = declarations[low];
  return here && here.start <= offset ? here : undefined;
}
