/** The page that a run sheet is shown in. It fetches nothing and runs no script but its own, whatever a sheet holds. */

/** Takes `{ sheets, held }` by message and puts the sheets in place without losing where one has scrolled to. */
const script = `
  const tell = acquireVsCodeApi();
  window.addEventListener("message", ({ data }) => {
    const pages = data.sheets.map(text => new DOMParser().parseFromString(text, "text/html"));
    for (const page of pages) for (const script of page.querySelectorAll("script")) script.remove();
    document.getElementById("sheets").replaceChildren(...pages.flatMap(page => [...page.body.childNodes]));
    document.getElementById("held").replaceChildren(...data.held.map(text => Object.assign(document.createElement("li"), { textContent: text })));
    document.getElementById("no").hidden = data.held.length === 0;
  });
  tell.postMessage("listening");
`;

/** Paper: black on white whatever the theme, the keys large and apart. */
const style = `
  html, body { background: #fff; color: #000; font-size: 14px; }
  body { padding: 0 2em 2em; }
  table { border-collapse: collapse; margin: 0.5em 0; }
  th, td { border: 1px solid #888; padding: 0.3em 0.6em; text-align: left; vertical-align: top; }
  code { color: #000; background: #eee; border-radius: 3px; padding: 0.1em 0.35em; font-size: 115%; white-space: nowrap; }
  #no { border: 2px solid #000; padding: 0.5em 1em; margin: 1em 0; }
  #no[hidden] { display: none; }
`;

export function emptyPage(): string {
  const nonce = crypto.randomUUID();
  return `<!doctype html>
<html>
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; img-src data:; script-src 'nonce-${nonce}'">
<style>${style}</style>
</head>
<body>
<section id="no" hidden><p><strong>No sheet can be written yet.</strong></p><ul id="held"></ul></section>
<main id="sheets"></main>
<script nonce="${nonce}">${script}</script>
</body>
</html>`;
}
