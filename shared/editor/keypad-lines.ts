/** The lines of a keypad that are typed at the door, each with what it takes: for hovers and inlay hints. */
import type { Span } from "../../grammar/tree.ts";
import type { Preview, PreviewOptions } from "../sheet/preview.ts";
import { previewer } from "../sheet/preview.ts";
import type { Keypad, Site } from "../site/site.ts";

export interface KeypadLine extends Span {
  /** Worked out only when it is asked for. */
  preview(): Preview;
}

/** In no particular order; nothing where the keypad has no model. */
export function* keypadLines(site: Site, keypad: Keypad, options: PreviewOptions): Iterable<KeypadLine> {
  const previews = previewer(site, keypad, options);
  if (!previews) return;
  const line = ({ start, end }: Span, preview: () => Preview): KeypadLine => ({ start, end, preview });
  for (const placement of keypad.placements) yield line(placement.node, () => previews.placement(placement));
  for (const place of keypad.allRelay) yield line(place.node, () => previews.allRelay(place));
  if (keypad.installer) yield line(keypad.installer.node, () => previews.installer());
  for (const { label, value, span } of keypad.settings) if (value !== undefined) yield line(span, () => previews.setting(label, value));
  for (const relay of keypad.relays) if (relay.node.release) yield line(relay.node.release, () => previews.release(relay));
  const { codeLength } = keypad;
  const length = keypad.node.facts.find(fact => fact.kind === "code-length");
  if (length && codeLength !== undefined) yield line(length, () => previews.codeLength(codeLength));
}

/** The keypad whose block, or whose first line, the offset is in. */
export function keypadAt(site: Site, file: string, offset: number): Keypad | undefined {
  return [...site.keypads.values()].find(({ file: own, node }) => own === file && node.start <= offset && offset <= node.end);
}
