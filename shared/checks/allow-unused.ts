/** An allowance without effect. */
import type { Finding } from "../finding.ts";
import type { Allowance } from "../site/site.ts";
import type { Found } from "./check.ts";
import { check, mullion } from "./check.ts";
import { removeComment } from "./edits.ts";

interface Unused extends Found {
  readonly allowance: Allowance;
  /** It stands on a line with an error of that name, which may not be allowed. */
  readonly ofError: boolean;
}

export const allowUnused = check({
  code: "allow-unused",
  severity: "hint",
  last: true,
  explain: {
    what: "An allowance that silences nothing, or gives no reason.",
    why: "An allowance that is left standing hides the next finding of its kind at that line, which nobody has looked at.",
    triggers: mullion`
      holder u1 "Unit 1" code 4829

      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Gate" {
          1 u1   // allow near-codes: same household
               //^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ allow-unused
        }
      }
    `,
    quiet: mullion`
      holder u1 "Unit 1" code 4829
      holder u2 "Unit 2" code 5591   // allow holder-idle: moves in next month

      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Gate" {
          1 u1
        }
      }
    `,
  },
  *find(site, _context, { findings, used, across, notRun }): Iterable<Unused> {
    const errors = new Set(findings.filter(one => one.severity === "error").map(one => `${one.file} ${one.code}`));
    for (const allowance of site.allowances) {
      // Of what was not looked for here, nobody can say whether there is any.
      const isOpen = across.has(allowance.code) || notRun.has(allowance.code);
      if (used.has(allowance) || (isOpen && allowance.reason !== "")) continue;
      const { file, start, end, code, line } = allowance;
      const ofError =
        errors.has(`${file} ${code}`) &&
        findings.some(one => one.file === file && one.code === code && one.start >= line.start && one.start <= line.end && !allowable(one));
      yield { file, start, end, allowance, ofError, tags: ["unnecessary"] };
    }
  },
  message: ({ allowance: { code, reason }, ofError }) => {
    if (code === "") return "an allowance names a finding and gives a reason: // allow near-codes: same household";
    if (reason === "") return `an allowance needs a reason: // allow ${code}: why`;
    return ofError
      ? `${code} is an error here and may not be allowed`
      : `nothing to allow here: there is no ${code} on the line it speaks of`;
  },
  fixes: ({ allowance }, site) => [
    { title: "Remove the allowance", edits: [removeComment(site, allowance)], safe: allowance.reason !== "", preferred: true },
  ],
});

/** Whether an allowance may silence it: what makes a sheet impossible or wrong may not be allowed. */
export function allowable(finding: Finding): boolean {
  return finding.severity !== "error" || finding.code === "factory-code";
}
