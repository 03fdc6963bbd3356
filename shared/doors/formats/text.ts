/** Doors and supplies for a terminal: a paragraph each. */
import { wrapped } from "../../sheet/columns.ts";
import { labelled } from "../../sheet/visible.ts";
import { relayWords } from "../list.ts";
import type { SumWords } from "../sum-words.ts";
import { behindTheSum } from "../sum-words.ts";
import { decides } from "../words.ts";
import type { DoorsFormat } from "./index.ts";

const width = 92;

export const text: DoorsFormat = {
  name: "text",
  render({ site, doors, supplies }) {
    if (doors.length + supplies.length === 0) return `${labelled(site)} has no doors yet.\n`;
    const paragraphs = [
      ...doors.map(door => [
        labelled(door.label),
        ...door.relays.flatMap(relay => indented(labelled(relayWords(relay)))),
        ...(door.sum ? linesOf(door.words) : indented("nothing more is said of it")),
        ...door.cautions.flatMap(caution => indented(`caution: ${labelled(caution)}`)),
      ]),
      ...supplies.map(({ sum, words }) => [`${labelled(sum.label)} (supply ${sum.id})`, ...linesOf(words)]),
      wrapped(decides.split(" "), width),
    ];
    return `${[[`${labelled(site)}: doors and supplies`], ...paragraphs].map(lines => lines.join("\n")).join("\n\n")}\n`;
  },
};

function linesOf(words: SumWords): readonly string[] {
  return [...words.lines, ...behindTheSum(words)].flatMap(indented);
}

/** Between words, never between a number and its unit. */
const gaps = / (?!(?:V|mA|A|Ah|h|Ω|m|mm²|AWG|°C|%)(?![\p{L}\d]))/u;

/** What goes on in a second line stands further in than what begins. */
function indented(line: string): readonly string[] {
  return wrapped(line.split(gaps), width - 4).map((part, index) => `${index === 0 ? "  " : "    "}${part}`);
}
