/** A paper beside the run sheet on pages. */
import type { Paper, Part } from "../../shared/papers/paper.ts";
import type { Bound } from "./pages.ts";
import type { Piece } from "./pieces.ts";
import { barred, columns, gap, heading, keys, rule, stack, ticked, words } from "./pieces.ts";
import { signature } from "./sheet-pages.ts";

export function paperPages(paper: Paper): Bound {
  const title = paper.about === undefined ? paper.title : `${paper.title}: ${paper.about}`;
  return {
    left: paper.about === undefined ? paper.site : `${paper.site}: ${paper.about}`,
    right: paper.title,
    blocks: [
      stack([words(title, { size: 18, bold: true, after: 1 }), words(`${paper.site}, ${paper.date}`, { size: 11, after: 6 })]),
      ...paper.parts.flatMap(blocksOf),
    ],
  };
}

function blocksOf(part: Part): readonly (Piece | "page")[] {
  switch (part.is) {
    case "heading":
      // Room for what follows: no heading stands alone at the foot of a page.
      return [stack(heading(part.text))];
    case "words":
      return [words(part.text, { size: 10, after: 4 })];
    case "caution":
      return [stack([gap(3), barred(part.text), gap(3)])];
    case "facts":
      return part.facts.map(([name, says]) => columns([share(1, words(name, { size: 10 })), share(4, words(says, { size: 10 }))]));
    case "list":
      return part.items.map(item =>
        part.tick
          ? ticked(item, { size: 10, after: 4 })
          : columns([share(1, words("–", { size: 10 })), share(40, words(item, { size: 10 }))]),
      );
    case "table":
      return table(part.head, part.rows, part.tick ?? false);
    case "way":
      return [
        stack([
          gap(6),
          words(part.door, { size: 12, bold: true, after: 4 }),
          keys(part.keys),
          ...part.says.map(says => words(says, { size: 10 })),
          rule(),
        ]),
      ];
    case "blanks":
      return part.blanks.map(({ label, unit }) =>
        columns([
          share(4, gap(12), words(label, { size: 10 })),
          share(5, gap(21), rule()),
          share(1, gap(12), words(unit ?? "", { size: 10 })),
        ]),
      );
    case "code":
      return [
        stack([
          gap(20),
          words(part.label, { size: 11, align: "center", after: 6 }),
          words([...part.text].join(" "), { size: 40, bold: true, align: "center", after: 20 }),
        ]),
      ];
    case "signatures":
      return [stack([gap(30), signature(part.names)])];
    case "page":
      return ["page"];
  }
}

function table(head: readonly string[], rows: readonly (readonly string[])[], tick: boolean): readonly Piece[] {
  const longest = head.map((cell, at) => Math.max(cell.length, ...rows.map(row => (row[at] ?? "").length)));
  // As wide as its words, within reason: one long cell does not press the others together.
  const shares = longest.map(length => Math.min(40, Math.max(9, length)));
  const row = (cells: readonly string[], bold: boolean) =>
    columns([
      ...(tick ? [share(3, bold ? words("") : ticked(""))] : []),
      ...cells.map((cell, at) => share(shares[at] ?? 1, words(cell, { bold, after: 1 }))),
    ]);
  const headed = stack([gap(3), row(head, true), rule(1)]);
  const [first, ...others] = rows.map(cells => stack([row(cells, false), rule()]));
  return first === undefined ? [headed] : [stack([headed, first]), ...others];
}

function share(of: number, ...parts: readonly Piece[]): { readonly share: number; readonly parts: readonly Piece[] } {
  return { share: of, parts };
}
