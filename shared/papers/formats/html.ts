/** A paper as one page that needs nothing beside it: no script, nothing from the network, black on white when printed. */
import { pageStyle } from "../../sheet/formats/html-style.ts";
import { htmlText } from "../../sheet/html-text.ts";
import type { SheetGroup } from "../../sheet/shape.ts";
import { sourceHash } from "../../sheet/source-hash.ts";
import type { Paper, Part } from "../paper.ts";
import type { PaperFormat } from "./format.ts";

export const html: PaperFormat = { name: "html", extension: "html", render: page };

const style = `
:root { color-scheme: light dark; --ink: #17181a; --paper: #ffffff; --faint: #55585e; --line: #85888e; --key: #f1f2f4; }
@media (prefers-color-scheme: dark) {
  :root { --ink: #f0f1f3; --paper: #131416; --faint: #b3b7bd; --line: #7d8187; --key: #26292d; }
}
* { box-sizing: border-box; }
html { -webkit-text-size-adjust: 100%; }
body {
  margin: 0 auto; max-width: 52rem; padding: 1rem; background: var(--paper); color: var(--ink);
  font: 1rem/1.45 system-ui, sans-serif; font-variant-numeric: tabular-nums slashed-zero; overflow-wrap: anywhere;
}
h1 { font-size: 1.5rem; line-height: 1.2; margin: 0 0 .25rem; }
h2 { font-size: 1.2rem; margin: 1.5rem 0 .5rem; border-bottom: 2px solid var(--line); }
p, ul, dl { margin: .4rem 0; }
ul { padding-left: 1.2rem; }
ul.tick { list-style: none; padding-left: 1.7em; }
ul.tick .box { margin-left: -1.7em; }
dl { display: grid; grid-template-columns: minmax(7rem, max-content) 1fr; gap: .15rem 1rem; }
dt { color: var(--faint); }
dd { margin: 0; }
.wide { overflow-x: auto; }
table { border-collapse: collapse; width: 100%; font-size: .95rem; }
th, td { text-align: start; padding: .3rem .6rem .3rem 0; border-bottom: 1px solid var(--line); vertical-align: top; }
th { border-bottom: 2px solid var(--ink); }
.box { display: inline-block; width: 1.1em; height: 1.1em; border: 2px solid var(--ink); vertical-align: -.15em; margin-right: .5em; }
.caution { border-left: 4px solid var(--ink); padding-left: .6rem; font-weight: 600; }
.way { border-bottom: 1px solid var(--line); padding: .5rem 0; }
.way h2 { border: 0; margin: 0; }
.keys { display: flex; flex-wrap: wrap; gap: .35rem; }
kbd { font: inherit; font-size: 1.5rem; font-weight: 600; background: var(--key); border: 1px solid var(--line); border-radius: .25rem; padding: .05rem .6rem; letter-spacing: .06em; }
kbd.hand { border: 2px dashed var(--line); background: none; font-size: 1.1rem; letter-spacing: 0; }
.secret { border: 2px solid var(--ink); padding: 1rem; text-align: center; }
.secret strong { display: block; font-size: 3rem; line-height: 1.3; letter-spacing: .15em; }
.blank { display: grid; grid-template-columns: minmax(9rem, 2fr) 3fr 2rem; gap: .6rem; align-items: end; padding-top: .9rem; }
.blank .line { border-bottom: 1px solid var(--ink); }
.signatures { display: grid; grid-template-columns: repeat(auto-fit, minmax(9rem, 1fr)); gap: 1.5rem; margin-top: 2.5rem; }
.signatures span { border-top: 1px solid var(--ink); padding-top: .2rem; }
:focus-visible { outline: 3px solid var(--ink); outline-offset: 2px; }
@media print {
  :root { color-scheme: light; --ink: #000; --paper: #fff; --faint: #000; --line: #000; --key: #fff; }
  body { max-width: none; padding: 0; font-size: 10.5pt; line-height: 1.3; }
  .paper + .paper, .new-page { break-before: page; }
  h2 { break-after: avoid; }
  .way, .secret, .signatures, .blank, tr, li { break-inside: avoid; }
  thead { display: table-header-group; }
  .wide { overflow: visible; }
}
`;

function page(papers: readonly Paper[]): string {
  const styles =
    style +
    papers
      .map((paper, index) =>
        pageStyle(`paper${index}`, paper.about === undefined ? paper.site : `${paper.site}: ${paper.about}`, paper.title),
      )
      .join("");
  const title = [...new Set(papers.map(({ title, site }) => `${title}, ${site}`))].join("; ");
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src '${sourceHash(styles)}'; base-uri 'none'; form-action 'none'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="referrer" content="no-referrer">
<meta name="robots" content="noindex">
<title>${htmlText(title)}</title>
<style>${styles}</style>
</head>
<body>
<main>
${papers.map(paperHtml).join("\n")}
</main>
</body>
</html>
`;
}

function paperHtml(paper: Paper, index: number): string {
  const heads = index === 0 ? "h1" : "h2";
  return `<div class="paper paper${index}">
<${heads}>${htmlText(paper.title)}${paper.about === undefined ? "" : `: ${htmlText(paper.about)}`}</${heads}>
<p><strong>${htmlText(paper.site)}</strong>, ${paper.date}</p>
${paper.parts.map((part, at) => partHtml(part, paper.parts[at - 1]?.is === "page")).join("\n")}
</div>`;
}

function partHtml(part: Part, onNewPage: boolean): string {
  const newPage = onNewPage ? ' class="new-page"' : "";
  switch (part.is) {
    case "heading":
      return `<h2${newPage}>${htmlText(part.text)}</h2>`;
    case "words":
      return `<p${newPage}>${htmlText(part.text)}</p>`;
    case "caution":
      return `<p class="caution">${htmlText(part.text)}</p>`;
    case "facts":
      return `<dl>${part.facts.map(([name, says]) => `<dt>${htmlText(name)}</dt><dd>${htmlText(says)}</dd>`).join("")}</dl>`;
    case "list":
      return part.tick
        ? `<ul class="tick">${part.items.map(item => `<li><span class="box"></span>${htmlText(item)}</li>`).join("")}</ul>`
        : `<ul>${part.items.map(item => `<li>${htmlText(item)}</li>`).join("")}</ul>`;
    case "table":
      return table(part.head, part.rows, part.tick ?? false);
    case "way":
      return `<section class="way"><h2>${htmlText(part.door)}</h2><p class="keys">${part.keys.map(keyHtml).join(" ")}</p>${part.says.map(words => `<p>${htmlText(words)}</p>`).join("")}</section>`;
    case "blanks":
      return part.blanks
        .map(
          ({ label, unit }) =>
            `<p class="blank"><span>${htmlText(label)}</span><span class="line"></span><span>${htmlText(unit ?? "")}</span></p>`,
        )
        .join("\n");
    case "code":
      return `<p class="secret">${htmlText(part.label)}<strong>${htmlText(part.text)}</strong></p>`;
    case "signatures":
      return `<p class="signatures">${part.names.map(name => `<span>${htmlText(name)}</span>`).join("")}</p>`;
    case "page":
      return "";
  }
}

function table(head: readonly string[], rows: readonly (readonly string[])[], tick: boolean): string {
  const heads = (tick ? ["Done", ...head] : head).map(cell => `<th scope="col">${htmlText(cell)}</th>`).join("");
  const body = rows.map(
    row => `<tr>${tick ? '<td><span class="box"></span></td>' : ""}${row.map(cell => `<td>${htmlText(cell)}</td>`).join("")}</tr>`,
  );
  return `<div class="wide" tabindex="0" role="region" aria-label="${htmlText(head.join(", "))}"><table><thead><tr>${heads}</tr></thead><tbody>\n${body.join("\n")}\n</tbody></table></div>`;
}

function keyHtml(group: SheetGroup): string {
  const hand = group.is === "hand" || group.text.startsWith("[");
  return hand ? `<kbd class="hand">${htmlText(group.text.replace(/^\[|\]$/g, ""))}</kbd>` : `<kbd>${htmlText(group.text)}</kbd>`;
}
