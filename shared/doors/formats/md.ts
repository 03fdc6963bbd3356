/** Doors and supplies for a page on a Git host. */
import { capital } from "../../capital.ts";
import { markdownText } from "../../sheet/markdown-text.ts";
import { labelled } from "../../sheet/visible.ts";
import { relayWords } from "../list.ts";
import type { SumWords } from "../sum-words.ts";
import { behindTheSum } from "../sum-words.ts";
import { decides } from "../words.ts";
import type { DoorsFormat } from "./index.ts";

export const md: DoorsFormat = {
  name: "md",
  render({ site, doors, supplies }) {
    const parts = [
      `# ${written(site)}: doors and supplies`,
      ...doors.flatMap(door => [
        `## ${written(door.label)}`,
        listed([...door.relays.map(relayWords), ...(door.sum ? door.words.lines : ["nothing more is said of it"])]),
        ...rest(door.words),
        ...door.cautions.map(caution => `> Caution: ${written(caution)}.`),
      ]),
      ...supplies.flatMap(({ sum, words }) => [
        `## ${written(sum.label)} (supply \`${sum.id.replaceAll("`", "")}\`)`,
        listed(words.lines),
        ...rest(words),
      ]),
      decides,
    ];
    return `${parts.filter(part => part !== "").join("\n\n")}\n`;
  },
};

function written(words: string): string {
  return markdownText(labelled(words));
}

function listed(lines: readonly string[]): string {
  return lines.map(line => `- ${written(line)}`).join("\n");
}

function rest(words: SumWords): readonly string[] {
  return behindTheSum(words, written).map(said => `${capital(said)}.`);
}
