/** The page that run sheets are shown in beside the text. It fetches nothing and runs no script but its own, whatever a sheet holds. */

/** What the extension tells the page. */
export type ToPage =
  | {
      /** What the page is about: it keeps this, so that it can be opened again after the window was closed. */
      readonly of: PreviewOf;
      readonly sheets: readonly { readonly keypad: string; readonly html: string }[];
      readonly style: string;
      /** Why there is no sheet, in words. */
      readonly held: readonly string[];
    }
  /** The entry that the cursor's line in the text is about. */
  | { readonly here: EntryNamed | null };

/** What the page tells the extension. */
export type FromPage = "listening" | "export" | { readonly go: EntryNamed };

/** Keypads of the site that a file belongs to. */
export interface PreviewOf {
  readonly uri: string;
  readonly keypads: readonly string[];
}

/** What the page keeps of itself, as VS Code hands it back after a restart: from an older version it may be anything. */
export function previewOf(kept: unknown): PreviewOf | undefined {
  const { of } = (kept ?? {}) as { readonly of?: Partial<PreviewOf> };
  if (typeof of?.uri !== "string" || !Array.isArray(of.keypads) || !of.keypads.every(id => typeof id === "string")) return undefined;
  return { uri: of.uri, keypads: of.keypads };
}

export interface EntryNamed {
  readonly keypad: string;
  readonly n: number;
}

/**
 * Puts the sheets in place by message, those alone that have changed, and keeps where the page was scrolled to, also while it
 * is hidden. A click or the Enter key on an entry leads to its line of the text.
 */
const script = `
  "use strict";
  const tell = acquireVsCodeApi();
  const sheets = document.getElementById("sheets");
  const held = document.getElementById("held");
  const look = document.getElementById("look");
  const shown = new Map();
  let scroll = tell.getState()?.scroll;
  const keep = part => tell.setState({ ...tell.getState(), ...part });
  // The browser would put an empty page back to its beginning.
  history.scrollRestoration = "manual";

  const clean = text => {
    const page = new DOMParser().parseFromString(text, "text/html");
    for (const found of page.querySelectorAll("script, style, link, meta, base, iframe, object, embed, form, img, svg, video, audio")) found.remove();
    return [...page.body.childNodes];
  };
  const draw = data => {
    keep({ of: data.of });
    if (look.textContent !== data.style) look.textContent = data.style;
    const sections = data.sheets.map(({ keypad, html }) => {
      const old = shown.get(keypad);
      if (old?.html === html) return old.section;
      const section = document.createElement("section");
      section.dataset.of = keypad;
      section.append(...clean(html));
      for (const entry of section.querySelectorAll("[data-n]")) entry.tabIndex = 0;
      shown.set(keypad, { html, section });
      return section;
    });
    const same = sections.length === sheets.children.length && sections.every((section, at) => sheets.children[at] === section);
    if (!same) {
      const top = window.scrollY;
      sheets.replaceChildren(...sections);
      window.scrollTo(0, scroll ?? top);
      scroll = undefined;
    }
    held.hidden = data.held.length === 0;
    held.querySelector("ul").replaceChildren(...data.held.map(text => Object.assign(document.createElement("li"), { textContent: text })));
  };
  const mark = here => {
    for (const old of document.querySelectorAll(".here")) {
      old.classList.remove("here");
      old.removeAttribute("aria-current");
    }
    if (!here) return;
    const section = [...sheets.children].find(one => one.dataset.of === here.keypad);
    const entry = section?.querySelector('[data-n="' + Number(here.n) + '"]');
    if (!entry) return;
    entry.classList.add("here");
    entry.setAttribute("aria-current", "true");
    entry.scrollIntoView({ block: "nearest" });
  };
  const go = event => {
    const entry = event.target.closest("[data-n]");
    const keypad = event.target.closest("[data-of]")?.dataset.of;
    if (entry && keypad) tell.postMessage({ go: { keypad, n: Number(entry.dataset.n) } });
  };
  window.addEventListener("message", ({ data }) => ("here" in data ? mark(data.here) : draw(data)));
  sheets.addEventListener("click", go);
  sheets.addEventListener("keydown", event => event.key === "Enter" && go(event));
  document.getElementById("export").addEventListener("click", () => tell.postMessage("export"));
  window.addEventListener("scroll", () => sheets.firstChild && keep({ scroll: window.scrollY }), { passive: true });
  tell.postMessage("listening");
`;

export function emptyPage(): string {
  const nonce = crypto.randomUUID();
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'nonce-${nonce}'; script-src 'nonce-${nonce}'">
<title>Run sheet</title>
<style nonce="${nonce}" id="look"></style>
</head>
<body>
<nav class="tools" aria-label="Sheet"><button type="button" id="export">Export…</button></nav>
<section class="held" id="held" aria-label="No sheet" hidden><p><strong>No sheet can be written yet.</strong></p><ul></ul></section>
<main id="sheets"></main>
<script nonce="${nonce}">${script}</script>
</body>
</html>`;
}
