/** Renaming a holder, a keypad, a model, a supply, a named code or tag, or a door by its label: everywhere in the sites that share it, or not at all. */
import { beginningWords } from "../../grammar/tokens.ts";
import type { Span } from "../../grammar/tree.ts";
import type { Edit } from "../finding.ts";
import { quoted } from "../quoted.ts";
import type { Site } from "../site/site.ts";
import type { Mention, Named, PlacedMention } from "./names.ts";
import { mentionsOf } from "./names.ts";

export interface Refused {
  /** In words, without a full stop. */
  readonly refused: string;
}

/** Why this cannot be renamed; undefined where it can. */
export function whyNot({ named }: Mention): string | undefined {
  switch (named.what) {
    case "setting":
      return "a setting is named by the keypad's manual";
    case "credential":
      return named.name === "code" || named.name === "tag" ? "this code or tag has no name of its own" : undefined;
    default:
      return undefined;
  }
}

/** Where the name itself stands: a door's inside its quotes. */
export function nameSpan({ named, start, end }: Mention): Span {
  return named.what === "door" && end - start >= 2 ? { start: start + 1, end: end - 1 } : { start, end };
}

/**
 * The edits that give a thing another name.
 *
 * @param sites every site that holds the place the name was asked for
 */
export function renameEdits(sites: readonly Site[], mention: Mention, name: string): readonly Edit[] | Refused {
  const refused = whyNot(mention) ?? badName(mention.named, name);
  if (refused) return { refused };
  const places = new Map<string, PlacedMention>();
  for (const site of sites) {
    if (taken(site, mention.named, name)) return { refused: `there is already a ${wordFor(mention.named)} ${name}` };
    for (const place of mentionsOf(site, mention.named)) if (!place.implied) places.set(`${place.file}:${place.start}`, place);
  }
  const text = mention.named.what === "door" ? quoted(name) : name;
  return [...places.values()].map(({ file, start, end }) => ({ file, start, end, text }));
}

function wordFor(named: Named): string {
  return named.what === "credential" ? "code or tag of this holder named" : named.what;
}

function badName(named: Named, name: string): string | undefined {
  if (named.what === "door") return name.trim() === "" || /[\r\n]/.test(name) ? "a label is a line of text" : undefined;
  if (!/^[A-Za-z][A-Za-z0-9_-]*$/.test(name)) return "a name is a letter, then letters, digits, `-` and `_`";
  if (named.what === "credential" && (name === "code" || name === "tag")) return "`code` and `tag` mean the unnamed ones";
  if (named.what === "holder" && (beginningWords as readonly string[]).includes(name))
    return `${name} begins something of its own when it is first on its line`;
  return undefined;
}

function taken(site: Site, named: Named, name: string): boolean {
  const wanted = { ...named, name };
  if (named.name === name) return false;
  // Relays that get the label of another door would be that door.
  return mentionsOf(site, wanted).some(mention => mention.declares || named.what === "door");
}
