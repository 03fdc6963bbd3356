/** More findings than anybody reads: the first ones are listed, the rest is counted. */
import type { Found } from "./check.ts";
import { at, check, mullion } from "./check.ts";

export const mostFindings = 10_000;

interface TooMany extends Found {
  readonly count: number;
  readonly errors: number;
}

export const tooMany = check({
  code: "too-many",
  severity: "information",
  exceptions: "error where one of the rest is an error",
  last: true,
  explain: {
    what: "More findings than anybody reads (10,000 in a site): the rest is counted, not listed.",
    why: "A file that is no Mullion text, or a merge gone wrong, gives more findings than a person or an editor can use. What is only counted still holds back the sheets that it touches.",
    triggers: mullion`
      holder u1 "Unit 1" code 4829
                       //^^^^^^^^^ holder-idle
      holder u2 "Unit 2" code 5591
                       //^^^^^^^^^ too-many
      holder u3 "Unit 3" code 7304

      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 spare
      }
    `,
    quiet: mullion`
      site "Wren Yard"
    `,
    context: { mostFindings: 1 },
  },
  *find(_site, context, { findings, beyond }): Iterable<TooMany> {
    const rest = findings.slice(context.mostFindings ?? mostFindings);
    const first = rest[0];
    if (!first) return;
    const errors = rest.filter(finding => finding.severity === "error");
    const everyKeypad = beyond.everyKeypad || errors.some(finding => finding.keypads.length === 0);
    yield {
      ...at(first.file, first),
      count: rest.length + beyond.count,
      errors: errors.length + beyond.errors,
      ...(errors.length + beyond.errors > 0 ? { severity: "error" } : {}),
      keypads: everyKeypad ? [] : [...new Set([...beyond.keypads, ...errors.flatMap(finding => finding.keypads)])],
    };
  },
  message: ({ count, errors }) => `from here on ${count} more findings are not listed, ${errors} of them errors`,
});
