/** A review for a person at a terminal. */
import { told } from "../told.ts";
import type { ReviewFormat } from "./index.ts";

export const text: ReviewFormat = {
  name: "text",
  render: (reviews, shown) =>
    reviews
      .map(review => {
        const { site, compared, sections } = told(review, shown);
        const written = sections.map(({ title, lines }) =>
          [
            title,
            ...lines.map(({ text: words, place, name }) => `  ${[place, words, name].filter(part => part !== undefined).join("  ")}`),
          ].join("\n"),
        );
        return `${[`${site}\n${compared}`, ...written].join("\n\n")}\n`;
      })
      .join("\n"),
};
