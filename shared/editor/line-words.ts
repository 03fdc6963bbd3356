/** A line of a keypad in words: its keys, what must be seen, and whether it is fitted already. */

import type { FittedState, Preview } from "../sheet/preview.ts";
import { spaced } from "../sheet/remarks.ts";
import { plain, verbatim } from "./markdown.ts";

const states: Record<FittedState, string> = {
  fitted: "already fitted",
  "to type": "still to be typed",
  unknown: "nobody can say whether it is fitted",
};

/** As Markdown. */
export function lineWords(preview: Preview): string {
  const where = [preview.door && `**${plain(preview.door)}**`, preview.slot && `slot ${verbatim(preview.slot)}`].filter(Boolean);
  const head = [where.join(", "), states[preview.state]].filter(Boolean).join(": ");
  if (preview.rows.length === 0) return `${head}\n\nIts keys cannot be worked out while something is missing.`;
  const rows = preview.rows.map(({ text, keys, shows, refusal }) =>
    [
      verbatim(spaced(keys)),
      `${plain(text)}.`,
      `${shows === undefined ? "" : `Must be seen: **${plain(shows)}**. `}Refused: ${plain(refusal)}.`,
    ].join("\n\n"),
  );
  return [head, ...rows].join("\n\n");
}

/** The keys alone, for a hint at the end of the line; undefined where there are none. */
export function lineKeys(preview: Preview): string | undefined {
  return preview.rows.length === 0 ? undefined : preview.rows.map(({ keys }) => spaced(keys)).join("  then  ");
}
