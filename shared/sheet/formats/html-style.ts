/** How the HTML run sheet looks: black on white on paper, one entry at a time with large keys on a phone, light or dark on screen. */

/** One style for every sheet; contrasts are at least 4.5 to 1 in both schemes, targets at least 56 px. */
export const style = `
:root {
  color-scheme: light dark;
  --ink: #17181a; --paper: #ffffff; --faint: #55585e; --line: #85888e; --key: #f1f2f4; --go: #0a5a38; --on-go: #ffffff; --mark: #8a3b00;
}
@media (prefers-color-scheme: dark) {
  :root { --ink: #f0f1f3; --paper: #131416; --faint: #b3b7bd; --line: #7d8187; --key: #26292d; --go: #7fd6ab; --on-go: #06140d; --mark: #ffb27d; }
}
* { box-sizing: border-box; }
html { -webkit-text-size-adjust: 100%; }
body {
  margin: 0 auto; max-width: 52rem; padding: 1rem; background: var(--paper); color: var(--ink);
  font: 1rem/1.45 system-ui, sans-serif; font-variant-numeric: tabular-nums slashed-zero; overflow-wrap: anywhere;
}
h1 { font-size: 1.5rem; line-height: 1.2; margin: 0 0 .25rem; }
h2 { font-size: 1.2rem; margin: 1.5rem 0 .5rem; border-bottom: 2px solid var(--line); }
h3 { font-size: 1rem; margin: 0; }
p, ul, dl { margin: .25rem 0; }
ul { list-style: none; padding: 0; }
dl { display: grid; grid-template-columns: max-content 1fr; gap: .1rem 1rem; }
dt { color: var(--faint); }
dd { margin: 0; }
.box { display: inline-block; width: 1.1em; height: 1.1em; border: 2px solid var(--ink); vertical-align: -.15em; margin-right: .5em; }
.step { padding: .6rem 0; border-bottom: 1px solid var(--line); }
.entry { display: grid; grid-template-columns: 1fr max-content; column-gap: 1rem; align-items: start; }
.entry > * { grid-column: 1; }
.entry > .slot { grid-column: 2; grid-row: 1 / span 3; text-align: center; border: 2px solid var(--ink); padding: 0 .75rem; line-height: 1.15; margin: 0; }
.slot strong { display: block; font-size: 2rem; }
.number { display: inline-block; min-width: 1.6em; }
.before li, .blanks li { padding-left: 1.7em; }
.before li > .box, .blanks li .box { margin-left: -1.7em; }
.before li + li { margin-top: .25rem; }
.before li.caution { padding-left: .6rem; }
.before li.caution > .box { display: none; }
.blanks li { padding-top: .25rem; padding-bottom: .25rem; }
.keys { display: flex; flex-wrap: wrap; gap: .35rem; margin: .35rem 0; }
kbd { font: inherit; font-size: 1.25rem; font-weight: 600; background: var(--key); border: 1px solid var(--line); border-radius: .25rem; padding: .05rem .5rem; min-width: 2.2ch; text-align: center; letter-spacing: .06em; }
kbd { display: inline-flex; align-items: center; justify-content: center; }
kbd.hand { border-style: dashed; border-width: 2px; background: none; letter-spacing: 0; }
kbd.gap { background: none; border-width: 0 0 2px; border-radius: 0; color: var(--faint); font-size: .8rem; font-weight: 400; letter-spacing: 0; text-align: left; padding-top: .6rem; }
.outcome { display: flex; flex-wrap: wrap; gap: 0 1.5rem; }
.see strong, .expect strong { font-weight: 700; }
.refusal, .remarks { color: var(--faint); }
.caution, .note { border-left: 4px solid var(--ink); padding-left: .6rem; font-weight: 600; }
.signature { display: grid; grid-template-columns: repeat(3, 1fr); gap: 1.5rem; margin-top: 2.5rem; }
.signature span { border-top: 1px solid var(--ink); padding-top: .2rem; }
.record { display: block; font-size: 1.1rem; border: 1px solid var(--line); padding: .75rem; user-select: all; }
.record span { white-space: nowrap; }
.way { margin: 0 0 .75rem; }
button { font: inherit; font-weight: 600; min-height: 56px; min-width: 56px; padding: 0 1rem; border: 2px solid var(--ink); border-radius: .5rem; background: var(--paper); color: var(--ink); }
button.go { background: var(--go); border-color: var(--go); color: var(--on-go); }
button[disabled] { border-color: var(--line); color: var(--faint); }
:focus-visible { outline: 3px solid var(--mark); outline-offset: 2px; }
/* A heading is given the focus so that it is read out; nothing can be done to it. */
:is(h2, h3):focus-visible { outline: none; }
.bar, .screen-only { display: none; }

@media screen {
  .scripted .screen-only { display: block; }
  .single body { position: relative; padding: .75rem .75rem 12rem; max-width: 34rem; }
  .single .step, .single .sheet > h2, .single .head dl, .single .signature { display: none; }
  .single .sheet { display: none; }
  .single .sheet.now, .single .step.now { display: block; }
  .single .step { border: 0; padding-top: 0; }
  .single .entry.now { display: grid; row-gap: .4rem; }
  .single .entry > .slot { grid-row: 1; font-size: 1.1rem; padding: .1rem .9rem .3rem; }
  .single .entry > h3 { grid-row: 1; }
  .single .entry > :not(h3, .slot) { grid-column: 1 / -1; margin: 0; }
  .single .step h3, .single .step h2 { font-size: 1.2rem; line-height: 1.25; border: 0; margin: 0; }
  .single .slot strong { font-size: 3rem; }
  .single .number { display: block; font-size: 1rem; color: var(--faint); }
  .single .number::before { content: "Entry "; }
  .single .step.now kbd { font-size: 1.75rem; padding: .1rem .6rem; }
  .single .step.now kbd.hand { font-size: 1.25rem; }
  .single .outcome { display: block; }
  .single .outcome p { margin: 0 0 .3rem; }
  .single .before.now kbd { font-size: 1.5rem; }
  .single .see, .single .expect { font-size: 1.2rem; }
  .single .head { margin-bottom: .75rem; padding-right: 8.5rem; min-height: 48px; }
  .single h1, .single .head p { font-size: .95rem; font-weight: 400; margin: 0; }
  .single .way { position: absolute; right: .75rem; top: .75rem; margin: 0; }
  .single .way button { min-height: 48px; padding: 0 .75rem; font-size: .95rem; }
  .single .step .box { display: none; }
  .single .before li:not(.caution) > .box { display: inline-block; }
  .single .bar { display: grid; grid-template-columns: 1fr 1fr 1fr; gap: .5rem; position: fixed; inset: auto 0 0; padding: .5rem .75rem .6rem; background: var(--paper); border-top: 2px solid var(--line); max-width: 34rem; margin: 0 auto; }
  .bar button { padding: 0 .25rem; }
  .bar .progress { grid-column: 1 / -1; margin: 0; font-size: .95rem; }
  .bar .go { grid-column: 1 / -1; min-height: 64px; font-size: 1.25rem; }
  .bar[data-kind]:not([data-kind="entry"]) .only-entry { display: none; }
  .bar [hidden] { display: none; }
  .single .blanks, .single .paper-only, html:not(.single) .record-part { display: none; }
}

/* A phone on its side: the buttons in one row. A small or much enlarged screen: the buttons below the step, so that they hide nothing of it. */
@media screen and (max-height: 26rem) and (min-width: 30rem) {
  .single .bar { grid-template-columns: 2fr 1fr 1fr 1fr; max-width: none; padding: .3rem .75rem .4rem; }
  .single .bar .go { grid-column: auto; min-height: 56px; }
  .single body { max-width: none; padding-bottom: 7rem; }
}
@media screen and (max-height: 26rem) and (max-width: 29.99rem) {
  .single .bar { grid-template-columns: repeat(3, minmax(0, 1fr)); position: static; padding: .5rem 0; margin-top: 1rem; }
  .single body { padding-bottom: .75rem; }
}
@media screen and (max-width: 17rem) {
  .single .head { padding-right: 0; min-height: 0; }
  .single .way { position: static; margin-bottom: .5rem; }
  .single .entry > .slot, .single .entry > h3 { grid-row: auto; grid-column: 1 / -1; }
}

@media print {
  :root { color-scheme: light; --ink: #000; --paper: #fff; --faint: #000; --line: #000; --key: #fff; }
  body { max-width: none; padding: 0; font-size: 10.5pt; line-height: 1.3; }
  .step p { margin: 1pt 0; }
  .sheet + .sheet { break-before: page; }
  h2, h3 { break-after: avoid; }
  .step, .blanks li, .signature { break-inside: avoid; }
  .step { border-bottom: .5pt solid #000; padding: 4pt 0; }
  .record-part { display: none; }
  .blanks ul { columns: 2; column-gap: 8mm; }
  .slot strong { font-size: 20pt; }
  kbd { font-size: 13pt; border: .75pt solid #000; }
}
`;

/** Laid over `style` where a sheet stands beside the text: the editor's own colours, entries that lead back to the text. */
export const besideStyle = `
html:root {
  --ink: var(--vscode-editor-foreground); --paper: var(--vscode-editor-background); --faint: var(--vscode-descriptionForeground);
  --line: var(--vscode-panel-border, var(--vscode-editorWidget-border, #85888e)); --key: var(--vscode-textCodeBlock-background, transparent);
  --mark: var(--vscode-focusBorder);
}
body { font-family: var(--vscode-font-family); }
.box, .signature, .blanks, .end { display: none; }
.before ul { list-style: disc; padding-left: 1.2em; }
.before li { padding-left: 0; }
.before li.caution { list-style: none; margin-left: -1.2em; }
.entry { cursor: pointer; padding-left: .6rem; border-left: 4px solid transparent; }
.entry:hover { border-left-color: var(--line); }
.entry.here { border-left-color: var(--vscode-focusBorder); background: var(--vscode-editor-lineHighlightBackground, transparent); }
.held { border: 2px solid var(--ink); padding: .5rem 1rem; }
.tools { display: flex; gap: .5rem; flex-wrap: wrap; position: sticky; top: 0; padding: .5rem 0; background: var(--paper); z-index: 1; }
.tools button {
  min-height: 32px; min-width: 44px; border: 1px solid var(--vscode-button-border, transparent); border-radius: 3px; padding: 0 .75rem;
  background: var(--vscode-button-secondaryBackground); color: var(--vscode-button-secondaryForeground); font-weight: 400;
}
`;

/** Repeated on every page of paper: which sheet, which keypad, which page of how many. */
export function pageStyle(name: string, left: string, right: string): string {
  return `
.${name} { page: ${name}; }
@page ${name} {
  margin: 18mm 14mm 16mm;
  @top-left { content: ${cssString(left)}; font: 9pt system-ui, sans-serif; }
  @top-right { content: ${cssString(right)}; font: 9pt system-ui, sans-serif; }
  @bottom-right { content: "page " counter(page) " of " counter(pages); font: 9pt system-ui, sans-serif; }
}
`;
}

/** A string of CSS in which every sign but letters, digits and spaces is its number: no label can end it, nor the style it stands in. */
function cssString(text: string): string {
  return `"${[...text].map(letter => (/[A-Za-z0-9 ]/.test(letter) ? letter : `\\${(letter.codePointAt(0) ?? 0).toString(16)} `)).join("")}"`;
}
