/**
 * What the HTML run sheet does on a phone: one step at a time, with done, skipped and doubtful entries kept in the browser's own
 * storage under the sheet's number until it is finished. Without it the page is the paper sheet. It stores numbers, never a code.
 */
export const script = `
"use strict";
(() => {
  const page = document.documentElement;
  const steps = [...document.querySelectorAll(".step")];
  if (steps.length === 0) return;
  const sheets = [...document.querySelectorAll(".sheet")];
  const storageKey = "mullion sheet " + sheets.map(sheet => sheet.dataset.number).join(" ");
  const entries = steps.filter(step => step.dataset.kind === "entry");
  const bar = document.querySelector(".bar");
  const find = name => bar.querySelector("[data-do=" + name + "]");
  const progress = bar.querySelector(".progress");
  const toggle = document.querySelector("[data-do=toggle]");
  let state = { at: 0, marks: {} };

  const load = () => {
    try {
      const kept = JSON.parse(localStorage.getItem(storageKey) || "null");
      if (kept && Number.isInteger(kept.at) && kept.at >= 0 && kept.at < steps.length && kept.marks && typeof kept.marks === "object") state = kept;
    } catch {
      // Storage may be closed to files; then the place lasts as long as the page.
    }
  };
  const save = () => {
    try {
      localStorage.setItem(storageKey, JSON.stringify(state));
    } catch {
      // As above.
    }
  };
  const clear = () => {
    try {
      localStorage.removeItem(storageKey);
    } catch {
      // As above.
    }
  };
  const sheetOf = step => step.closest(".sheet");
  const keyOf = step => sheets.indexOf(sheetOf(step)) + ":" + step.dataset.n;
  const numbers = (sheet, mark) =>
    entries.filter(step => sheetOf(step) === sheet && state.marks[keyOf(step)] === mark).map(step => Number(step.dataset.n));
  const ranges = list => {
    const runs = [];
    for (const n of list) {
      const last = runs[runs.length - 1];
      if (last && last[1] === n - 1) last[1] = n;
      else runs.push([n, n]);
    }
    return runs.map(([from, to]) => (from === to ? String(from) : from + "-" + to)).join(",");
  };
  const recordWords = sheet => {
    const all = entries.filter(step => sheetOf(step) === sheet).length;
    const done = numbers(sheet, "done");
    const doubt = numbers(sheet, "doubt");
    if (done.length + doubt.length === 0) return "Nothing was typed: there is nothing to record.";
    const words = ["mullion record FILE --keypad", sheet.dataset.keypad, "--sheet", sheet.dataset.number];
    if (done.length === all) words.push("--all");
    else if (done.length > 0) words.push("--done", ranges(done));
    if (doubt.length > 0) words.push("--doubt", ranges(doubt));
    return words.join(" ");
  };

  const show = () => {
    for (const shown of document.querySelectorAll(".now")) shown.classList.remove("now");
    const step = steps[state.at];
    const sheet = sheetOf(step);
    step.classList.add("now");
    sheet.classList.add("now");
    const kind = step.dataset.kind;
    bar.dataset.kind = kind;
    const own = entries.filter(entry => sheetOf(entry) === sheet);
    const marked = own.filter(entry => state.marks[keyOf(entry)]).length;
    const mark = kind === "entry" ? { done: ", done", skip: ", skipped", doubt: ", not sure" }[state.marks[keyOf(step)]] || "" : "";
    const where = kind === "entry" ? "Entry " + step.dataset.n + " of " + own.length + mark + ". " : "";
    progress.textContent = where + numbers(sheet, "done").length + " done, " + (own.length - marked) + " left.";
    const last = state.at === steps.length - 1;
    find("go").textContent = kind === "entry" ? "Done" : last ? "Finish" : "Next";
    find("back").disabled = state.at === 0;
    find("skip").disabled = step.dataset.skippable === "no";
    const words = step.querySelector(".record");
    // No word of it is broken at its hyphens.
    if (words) words.replaceChildren(...recordWords(sheet).split(" ").flatMap((word, at) => {
      const whole = document.createElement("span");
      whole.textContent = word;
      return at === 0 ? [whole] : [" ", whole];
    }));
    const heading = step.querySelector("h2, h3");
    // The session's heading above it is not shown then.
    heading.setAttribute("aria-level", "2");
    window.scrollTo(0, 0);
    heading.focus({ preventScroll: true });
  };
  const move = by => {
    state.at = Math.min(Math.max(state.at + by, 0), steps.length - 1);
    save();
    show();
  };
  const marked = mark => {
    const step = steps[state.at];
    if (step.dataset.kind === "entry") state.marks[keyOf(step)] = mark;
    move(1);
  };
  const finish = () => {
    clear();
    state = { at: 0, marks: {} };
    single(false);
    page.classList.add("finished");
  };
  const go = () => {
    const step = steps[state.at];
    if (step.dataset.kind === "entry") marked("done");
    else if (state.at === steps.length - 1) finish();
    else move(1);
  };
  const single = on => {
    page.classList.toggle("single", on);
    toggle.textContent = on ? "Whole sheet" : "One entry at a time";
    if (on) show();
    else for (const heading of document.querySelectorAll("[aria-level]")) heading.removeAttribute("aria-level");
  };

  find("go").addEventListener("click", go);
  find("back").addEventListener("click", () => move(-1));
  find("skip").addEventListener("click", () => marked("skip"));
  find("doubt").addEventListener("click", () => marked("doubt"));
  toggle.addEventListener("click", () => single(!page.classList.contains("single")));
  document.addEventListener("keydown", event => {
    if (!page.classList.contains("single") || event.altKey || event.ctrlKey || event.metaKey) return;
    if (event.key === "ArrowRight") go();
    else if (event.key === "ArrowLeft") move(-1);
  });
  let from = null;
  document.addEventListener("touchstart", event => {
    from = event.touches.length === 1 ? [event.touches[0].clientX, event.touches[0].clientY] : null;
  }, { passive: true });
  document.addEventListener("touchend", event => {
    if (!from || !page.classList.contains("single")) return;
    const across = event.changedTouches[0].clientX - from[0];
    const down = event.changedTouches[0].clientY - from[1];
    from = null;
    if (Math.abs(across) < 60 || Math.abs(across) < 2 * Math.abs(down)) return;
    if (across < 0) go();
    else move(-1);
  }, { passive: true });

  load();
  page.classList.add("scripted");
  single(window.matchMedia("(max-width: 640px)").matches || state.at > 0);
})();
`;
