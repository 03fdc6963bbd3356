/** A review for a pull request. */
import { codeSpan, markdownText } from "../../sheet/markdown-text.ts";
import type { Line } from "../told.ts";
import { told } from "../told.ts";
import type { ReviewFormat } from "./index.ts";

export const md: ReviewFormat = {
  name: "md",
  render: (reviews, shown) =>
    reviews
      .map(review => {
        const { site, compared, sections } = told(review, shown);
        const written = sections.map(({ title, lines }) => [`### ${title}`, "", ...lines.map(lineOf)].join("\n"));
        return `${[`## ${markdownText(site)}`, markdownText(compared), ...written].join("\n\n")}\n`;
      })
      .join("\n"),
};

function lineOf({ text, place, name }: Line): string {
  const before = place === undefined ? "" : `${codeSpan(place)} `;
  const after = name === undefined ? "" : ` (${codeSpan(name)})`;
  return `- ${before}${markdownText(text)}${after}`;
}
