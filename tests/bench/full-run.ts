/** A keypad with all its slots to be typed: planned, proved, and written as a sheet. */
import { parse } from "../../grammar/parse.ts";
import { must } from "../../shared/must.ts";
import { planFor } from "../../shared/plan/start.ts";
import { html } from "../../shared/sheet/formats/html.ts";
import { json } from "../../shared/sheet/formats/json.ts";
import { sheetOf } from "../../shared/sheet/sheet.ts";
import { loadSite } from "../../shared/site/load.ts";
import { fullKeypadText } from "./generate.ts";
import { today } from "./today.ts";

const file = "memory:/site.mullion";

/** @param lines slots of the keypad, each of which is one entry */
export function prepare(lines: number): () => Record<string, number> {
  const text = fullKeypadText(lines);
  const source = { file, text, ...parse(text) };
  return () => {
    // Loaded anew each time, as a command does: nothing is known from the run before.
    const site = loadSite(file, asked => (asked === file ? source : undefined));
    const keypad = site.keypads.get("gate");
    must(keypad, "the keypad is in the text");
    let begun = process.cpuUsage();
    // Processor time, as for whole runs.
    const since = () => {
      const { user, system } = process.cpuUsage(begun);
      begun = process.cpuUsage();
      return (user + system) / 1000;
    };
    const plan = planFor(site, keypad, "factory");
    must(!("cannot" in plan), "there is a plan");
    const planMs = since();
    const sheet = sheetOf(site, keypad, plan, { hideCodes: false, showInstaller: false, today });
    const sheetMs = since();
    const asJson = String(json.render([sheet]));
    const jsonMs = since();
    const asHtml = String(html.render([sheet]));
    const htmlMs = since();
    return {
      planMs,
      toJsonMs: planMs + sheetMs + jsonMs,
      toHtmlMs: planMs + sheetMs + htmlMs,
      entries: plan.sessions.reduce((sum, { entries }) => sum + entries.length, 0),
      jsonBytes: asJson.length,
      htmlBytes: asHtml.length,
    };
  };
}
