/** The run sheet as one self-contained HTML file: paper for the printer, one entry at a time on a phone, nothing from the network. */
import type { Format } from "../format.ts";
import { htmlText } from "../html-text.ts";
import { dateWords, destroyWords, moreTriesWords, nothingToType, relayWords, remarks, totalsWords } from "../remarks.ts";
import type { BlankPattern, Sheet, SheetEntry, SheetGroup, SheetSession, Try } from "../shape.ts";
import { sourceHash } from "../source-hash.ts";
import { script } from "./html-script.ts";
import { pageStyle, style } from "./html-style.ts";

export const html: Format = { name: "html", extension: "html", render: page };

function page(sheets: readonly Sheet[]): string {
  const styles =
    style + sheets.map((sheet, index) => pageStyle(`sheet${index}`, `${sheet.site}: ${sheet.label}`, `Run sheet ${sheet.number}`)).join("");
  const policy = `default-src 'none'; style-src '${sourceHash(styles)}'; script-src '${sourceHash(script)}'; base-uri 'none'; form-action 'none'`;
  const title = `Run sheet ${sheets.map(sheet => `${sheet.number}, ${sheet.label}`).join("; ")}`;
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="referrer" content="no-referrer">
<meta name="robots" content="noindex">
<title>${htmlText(title)}</title>
<style>${styles}</style>
</head>
<body>
<p class="screen-only way"><button type="button" data-do="toggle">One entry at a time</button></p>
<main>
${sheets.map(sheetFragment).join("\n")}
</main>
<nav class="bar" aria-label="This step">
<p class="progress" role="status"></p>
<button type="button" data-do="go" class="go">Next</button>
<button type="button" data-do="back">Back</button>
<button type="button" data-do="skip" class="only-entry">Skip</button>
<button type="button" data-do="doubt" class="only-entry">Not sure</button>
</nav>
<script>${script}</script>
</body>
</html>
`;
}

/** The sheet alone, to stand in a page; its entries carry their numbers in `data-n`. */
export function sheetFragment(sheet: Sheet, index: number): string {
  const facts: readonly (readonly [string, string])[] = [
    ["Keypad", `${sheet.keypad}, model ${sheet.model} (${sheet.modelLabel})`],
    ["Starts from", sheet.startWords],
    ["Date", dateWords(sheet)],
    ["To type", sheet.sessions.length === 0 ? nothingToType : totalsWords(sheet)],
  ];
  return `<div class="sheet sheet${index}" data-number="${htmlText(sheet.number)}" data-keypad="${htmlText(sheet.keypad)}">
<header class="head">
<h1>Run sheet ${htmlText(sheet.number)}</h1>
<p><strong>${htmlText(sheet.site)}: ${htmlText(sheet.label)}</strong></p>
<dl>${facts.map(([name, says]) => `<dt>${name}</dt><dd>${htmlText(says)}</dd>`).join("")}</dl>
</header>
${beforeHtml(sheet)}
${sheet.sessions.map(sessionHtml).join("\n")}
${triesHtml(sheet)}
${blanksHtml(sheet)}
<section class="step end" data-kind="end">
<h2 tabindex="-1">Afterwards</h2>
<div class="record-part screen-only"><p>To record what was typed:</p><output class="record"></output></div>
<p class="note">${destroyWords}</p>
<p class="signature"><span>Typed by</span><span>Signed</span><span>Date</span></p>
</section>
</div>`;
}

function beforeHtml(sheet: Sheet): string {
  if (sheet.before.length === 0) return "";
  const items = sheet.before.map(
    item =>
      `<li${item.kind === "caution" ? ' class="caution"' : ""}><span class="box"></span>${htmlText(item.text)}${item.keys ? keys(item.keys) : ""}</li>`,
  );
  return `<section class="step before" data-kind="before"><h2 tabindex="-1">Before you start</h2><ul>${items.join("")}</ul></section>`;
}

function sessionHtml(session: SheetSession): string {
  const enter = `<section class="step" data-kind="enter"><h3 tabindex="-1">Enter programming mode</h3>${
    session.enterNote === undefined ? "" : `<p class="note">${htmlText(session.enterNote)}</p>`
  }${keys(session.enter)}${seen(session.enterShows)}</section>`;
  const leave = `<section class="step" data-kind="leave"><h3 tabindex="-1">Leave programming mode</h3>${
    session.leaveNote === undefined ? "" : `<p class="note">${htmlText(session.leaveNote)}</p>`
  }${session.leave.length === 0 ? "" : keys(session.leave)}${seen(session.leaveShows)}</section>`;
  return `<h2>Session ${session.number}</h2>\n${enter}\n${session.entries.map(entryHtml).join("\n")}\n${leave}`;
}

function entryHtml(entry: SheetEntry): string {
  return `<article class="step entry" data-kind="entry" data-n="${entry.n}" data-skippable="${entry.skippable ? "yes" : "no"}">
<h3 tabindex="-1"><span class="box"></span><span class="number">${entry.n}</span> ${htmlText(entry.text)}</h3>
${entry.slot === undefined ? "" : `<p class="slot">slot <strong>${htmlText(entry.slot)}</strong></p>`}
${keys(entry.keys)}
<div class="outcome">${seen(entry.shows)}<p class="refusal">Refused: ${htmlText(entry.refusal)}.</p></div>
<p class="remarks">${htmlText(remarks(entry).join(" "))}</p>
</article>`;
}

function triesHtml(sheet: Sheet): string {
  if (sheet.paperTries.length === 0) return "";
  const more = moreTriesWords(sheet);
  const tries = sheet.paperTries.map((one, index) => tryHtml(one, index === 0 ? sheet.pace : undefined));
  return `<h2>Tries</h2>\n${tries.join("\n")}${more === undefined ? "" : `<p class="paper-only">${htmlText(more)}</p>`}`;
}

/** @param pace said before the first. */
function tryHtml(one: Try, pace: string | undefined): string {
  const again = one.kind === "again" ? ", once more" : "";
  const wait = one.waitSeconds === undefined ? "" : `<p class="note">Wait ${one.waitSeconds} s first.</p>`;
  return `<section class="step try" data-kind="try"><h3 tabindex="-1"><span class="box"></span>Try: ${htmlText(one.who)}${again}</h3>${pace === undefined ? "" : `<p class="note">${htmlText(pace)}</p>`}${wait}${keys(one.keys)}<p class="expect">Must happen: <strong>${htmlText(one.expect)}</strong></p></section>`;
}

function blanksHtml(sheet: Sheet): string {
  if (sheet.blanks.length === 0) return "";
  const relays = sheet.relayKeys.length === 0 ? "" : `<p>${htmlText(relayWords(sheet))}</p>`;
  const rows = sheet.blanks.flatMap(blank => [blankHtml(blank), blankHtml(blank)]);
  return `<section class="blanks"><h2>Asked for at the door</h2>${relays}<ul>${rows.join("")}</ul></section>`;
}

function blankHtml(blank: BlankPattern): string {
  const parts = blank.parts.map(part =>
    "gap" in part
      ? `<kbd class="gap" data-width="${part.width}">${htmlText(part.gap)}${"\u2007".repeat(part.width)}</kbd>`
      : keyHtml({ text: part.keys, is: part.keys.startsWith("[") ? "hand" : "keys" }),
  );
  return `<li><p><span class="box"></span>${htmlText(blank.text)}, for ____________________</p><p class="keys">${parts.join(" ")}</p>${seen(blank.shows)}</li>`;
}

function seen(shows: string | undefined): string {
  return shows === undefined ? "" : `<p class="see">Must be seen: <strong>${htmlText(shows)}</strong></p>`;
}

function keys(groups: readonly SheetGroup[]): string {
  return `<p class="keys">${groups.map(keyHtml).join(" ")}</p>`;
}

/** A hand action is drawn as one, without its brackets. */
function keyHtml(group: SheetGroup): string {
  const hand = group.is === "hand" || group.text.startsWith("[");
  return hand ? `<kbd class="hand">${htmlText(group.text.replace(/^\[|\]$/g, ""))}</kbd>` : `<kbd>${htmlText(group.text)}</kbd>`;
}
