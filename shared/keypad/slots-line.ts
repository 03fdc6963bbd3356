/** The `slots` line of a model: which places there are, how they are numbered, and which are kept for what. */
import type { SlotRange, SlotsForm } from "../../grammar/tree.ts";
import { silent } from "./defaults.ts";
import type { SlotBand, Slots } from "./model.ts";
import type { Report } from "./problem.ts";

/** A place number has at most nine digits: our own choice, more than any memory has places. */
const mostDigits = 9;

/** Compiles the line; undefined while it is half typed or cannot be read. */
export function compileSlots(form: SlotsForm | undefined, report: Report): Slots | undefined {
  if (!form?.addressing) return undefined;
  const holds = form.holds ?? silent.holds;
  const { addressing } = form;
  if (addressing === "one per relay") return { addressing, bands: [], capacity: 1, holds };
  if (addressing === "unnumbered") {
    const capacity = Number(form.count?.text);
    if (!Number.isSafeInteger(capacity) || capacity < 1) {
      report("model-field", "number-range", form.count ?? form, "say how many places there are");
      return undefined;
    }
    return { addressing, bands: [], capacity, holds };
  }
  const bands = compileBands(form.ranges, report);
  if (bands.length === 0) {
    report("model-incomplete", "fact-missing", form, "say which numbers the slots have (00..59)");
    return undefined;
  }
  const width = widthOf(form.ranges, report);
  const capacity = bands.reduce((sum, band) => (band.kept === "all-relay" ? sum : sum + band.to - band.from + 1), 0);
  return { addressing, bands, ...(width === undefined ? {} : { width }), capacity, holds };
}

function compileBands(ranges: readonly SlotRange[], report: Report): readonly SlotBand[] {
  const bands: (SlotBand & { readonly range: SlotRange })[] = [];
  for (const range of ranges) {
    const [from, to] = [Number(range.from.text), Number(range.to.text)];
    if (range.to.text.length > mostDigits) report("model-field", "number-range", range, `a slot number has at most ${mostDigits} digits`);
    else if (!(from <= to)) report("model-field", "number-range", range, `a range goes upwards: from ${to} to ${from}`);
    else {
      const over = bands.find(band => band.from <= to && from <= band.to);
      if (over) {
        report("model-field", "number-range", range, `these numbers stand in ${over.range.from.text}..${over.range.to.text} already`, {
          related: over.range,
        });
      } else bands.push({ from, to, ...(range.kept ? { kept: range.kept } : {}), range });
    }
  }
  return bands.map(({ range: _, ...band }) => band);
}

/** Numbers all written with as many digits are typed with that many; others as they are, and then none begins with a zero. */
function widthOf(ranges: readonly SlotRange[], report: Report): number | undefined {
  const texts = ranges.flatMap(range => [range.from.text, range.to.text]);
  const width = texts[0]?.length;
  if (texts.every(text => text.length === width)) return width;
  const padded = ranges.find(range => [range.from, range.to].some(word => word.text.length > 1 && word.text.startsWith("0")));
  if (padded) report("model-field", "field-width", padded, "write all slot numbers with as many digits, or none with a leading zero");
  return undefined;
}
