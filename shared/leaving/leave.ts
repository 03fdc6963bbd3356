/** Somebody leaves: their codes and tags come out of every keypad in the text; the rest of the file stays as it is. */
import { remove, replace } from "../checks/edits.ts";
import type { Edit } from "../finding.ts";
import type { Holder, Keypad, Placement, Site } from "../site/site.ts";

export interface Leaving {
  readonly edits: readonly Edit[];
  /** Keypads whose text changes, in the order of the text. */
  readonly keypads: readonly Keypad[];
  /** Keypads whose installer code is the holder's: it must be changed, and only a person can say to what. */
  readonly installerOf: readonly Keypad[];
}

/**
 * The holder's own lines stay, so that the next sheet can say whose code is withdrawn and try it.
 * Of a pair with somebody else's code or tag, the other half stays.
 */
export function leave(site: Site, holder: Holder): Leaving {
  const edits: Edit[] = [];
  const keypads: Keypad[] = [];
  for (const keypad of site.keypads.values()) {
    const before = edits.length;
    for (const { held, node } of keypad.allRelay) if (held?.holder === holder) edits.push(remove(site, keypad.file, node));
    for (const placement of keypad.placements) {
      const edit = withoutHolder(site, keypad, placement, holder);
      if (edit) edits.push(edit);
    }
    if (edits.length > before) keypads.push(keypad);
  }
  return { edits, keypads, installerOf: [...site.keypads.values()].filter(keypad => keypad.installer?.held?.holder === holder) };
}

function withoutHolder(site: Site, keypad: Keypad, placement: Placement, holder: Holder): Edit | undefined {
  const stays = placement.held.filter(use => use.holder !== holder);
  if (stays.length === placement.held.length) return undefined;
  const [other] = stays;
  const { pair, held } = placement.node;
  // Half of a pair that needs both opens nothing, and would only keep the place.
  if (!other || !pair || !held || placement.mode === "with") return remove(site, keypad.file, placement.node);
  const path = other.node.credential ? `${other.node.holder.text}.${other.node.credential.text}` : other.node.holder.text;
  return replace(keypad.file, { start: held.start, end: pair.end }, path);
}
