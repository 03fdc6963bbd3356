/** A label as it is shown: one that says nothing is none. */
import type { Str } from "../grammar/tree.ts";

export function labelIn(node: Str | undefined): string | undefined {
  return node && node.text.trim() !== "" ? node.text : undefined;
}
