/** The table as one page that needs nothing beside it, and prints well in black and white. */
import { htmlText } from "../../sheet/html-text.ts";
import { whoColumns } from "../table.ts";
import type { WhoFormat } from "./index.ts";

const style = `
:root { color-scheme: light dark; }
body { font: 16px/1.45 system-ui, sans-serif; margin: 2rem auto; max-width: 62rem; padding: 0 1rem; color: CanvasText; background: Canvas; }
h1 { font-size: 1.4rem; margin: 0; }
.date { margin: .2rem 0 1.2rem; }
.wide { overflow-x: auto; }
table { border-collapse: collapse; width: 100%; font-size: .95rem; }
th, td { text-align: start; padding: .4rem .6rem; border-bottom: 1px solid GrayText; vertical-align: top; }
th { border-bottom: 2px solid CanvasText; }
tbody th { font-weight: 600; border-bottom: 1px solid GrayText; }
.lapsed { font-weight: 600; text-decoration: underline; }
@media print {
  @page { margin: 14mm; }
  body { margin: 0; max-width: none; padding: 0; font-size: 10pt; color: black; background: white; }
  .wide { overflow: visible; }
  thead { display: table-header-group; }
  tr { break-inside: avoid; }
}`;

export const html: WhoFormat = {
  name: "html",
  render({ site, date, rows, odds, notes }) {
    const head = whoColumns.map(column => `<th scope="col">${column}</th>`).join("");
    const body = rows.map(({ way, cells }) => {
      const [door = "", ...others] = cells.map(htmlText);
      const marked = others.map(cell => `<td${way.lapsed && cell.includes("lapsed") ? ' class="lapsed"' : ""}>${cell}</td>`).join("");
      return `<tr><th scope="row">${door}</th>${marked}</tr>`;
    });
    return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>${htmlText(site)}: who opens what</title>
<style>${style}
</style>
</head>
<body>
<main>
<h1>${htmlText(site)}: who opens what</h1>
<p class="date">${htmlText(date)}</p>
<div class="wide" tabindex="0" role="region" aria-label="Who opens what">
<table>
<thead><tr>${head}</tr></thead>
<tbody>
${body.join("\n")}
</tbody>
</table>
</div>
${[...odds, ...notes].map(line => `<p>${htmlText(line)}</p>`).join("\n")}
</main>
</body>
</html>
`;
  },
};
