/** Days as the command line takes and knows them. */
import type { Day } from "../../shared/site/site.ts";

/** True for a day that the calendar has, written `YYYY-MM-DD`. */
export function isDay(text: string): boolean {
  if (!/^\d{4}-\d\d-\d\d$/.test(text)) return false;
  const day = new Date(`${text}T00:00:00Z`);
  return !Number.isNaN(day.getTime()) && day.toISOString().startsWith(text);
}

/** The day by the local clock. */
export function dayOf(moment: Date): Day {
  const two = (number: number) => String(number).padStart(2, "0");
  return `${String(moment.getFullYear()).padStart(4, "0")}-${two(moment.getMonth() + 1)}-${two(moment.getDate())}`;
}
