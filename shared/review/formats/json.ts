/** Reviews for another program. What does not apply is absent; there is no code in it. */
import { jsonText } from "../../json-text.ts";
import type { Change } from "../change.ts";
import type { Review } from "../review.ts";
import { isToType } from "../review.ts";
import type { Shown } from "../told.ts";
import type { ReviewFormat } from "./index.ts";

export const json: ReviewFormat = {
  name: "json",
  render: (reviews, shown) =>
    jsonText({ from: shown.from, date: shown.date, sites: reviews.map(review => siteOf(review, shown)), toType: reviews.some(isToType) }),
};

function siteOf({ before, after, people, keypads, warnings, work, found, settled }: Review, shown: Shown) {
  return {
    file: shown.path(after.root),
    ...(after.label === undefined ? {} : { site: after.label }),
    ...(before.files.length === 0 ? { isNew: true } : {}),
    people: people.map(changeOf),
    keypads: keypads.map(changeOf),
    warnings: warnings.map(({ code, holder, message }) => ({ code, holder, message })),
    work: work.map(({ keypad, from, touched, entries, keys, minutes, tags, why, waited }) => ({
      keypad: keypad.id,
      label: keypad.label,
      from,
      touched,
      ...(entries === undefined ? { why } : { entries, keys, minutes, bring: tags }),
      ...(waited === undefined ? {} : { waited }),
    })),
    findings: found.map(finding => ({
      file: shown.path(finding.file),
      ...shown.at(finding),
      severity: finding.severity,
      code: finding.code,
      message: finding.message,
    })),
    settled: settled.length,
  };
}

function changeOf({ kind, text, holder, keypad, doors }: Change) {
  return {
    kind,
    text,
    ...(holder === undefined ? {} : { holder }),
    ...(keypad === undefined ? {} : { keypad }),
    ...(doors === undefined ? {} : { doors }),
  };
}
