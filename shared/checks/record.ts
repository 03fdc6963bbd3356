/** What a fitted record says that a keypad of its model cannot hold, for the checks that it belongs to. */
import type { FittedProblem } from "../keypad/fitted-memory.ts";
import type { Site } from "../site/site.ts";
import type { Found } from "./check.ts";
import { at } from "./check.ts";

export interface InRecord extends Found {
  readonly inRecord: FittedProblem;
}

/** The problems of all records that a check takes. */
export function* inRecords(site: Site, ...kinds: readonly FittedProblem["kind"][]): Iterable<InRecord> {
  for (const { file, keypadId, problems } of site.fitted) {
    for (const inRecord of problems) {
      if (!kinds.includes(inRecord.kind)) continue;
      const related = inRecord.related ? [{ ...at(file, inRecord.related), message: "the first one, which is read" }] : [];
      yield { ...at(file, inRecord.span), inRecord, related, keypads: [keypadId] };
    }
  }
}
