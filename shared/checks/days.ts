/** Days as text, counted. */
import type { Day } from "../site/site.ts";

/** Whole days from one day to another, negative backwards; undefined where one of them is no date. */
export function daysBetween(from: Day, to: Day): number | undefined {
  const [start, end] = [dayNumber(from), dayNumber(to)];
  return start === undefined || end === undefined ? undefined : end - start;
}

const millisecondsInDay = 86_400_000;

function dayNumber(day: Day): number | undefined {
  const parts = /^(\d{4})-(\d\d)-(\d\d)$/.exec(day);
  if (!parts) return undefined;
  return Date.UTC(Number(parts[1]), Number(parts[2]) - 1, Number(parts[3])) / millisecondsInDay;
}
