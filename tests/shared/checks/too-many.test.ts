import { expect, test } from "vitest";
import { findingsOf } from "../../../shared/checks/run.ts";
import { mostFindings } from "../../../shared/checks/too-many.ts";
import { mullion, siteOf, today } from "../../support/fixture.ts";

const site = siteOf(mullion`
  holder u1 "Unit 1" code 4829
  keypad gate "Gate" : tiny {
    installer code 6044
    relay 1 "Gate" { 1 u1 4 u1 }
  }
  keypad back "Back" : tiny {
    installer code 6044
    relay 1 "Back" { 1 u2 }
  }
`);

test("the first ones are listed, the rest is one finding that is as severe as the worst and holds back what they do", () => {
  const all = findingsOf(site, { today });
  expect(all.map(({ code }) => code)).toEqual(["slot-range", "code-clash", "name-unknown"]);
  const few = findingsOf(site, { today, mostFindings: 1 });
  expect(few.map(({ code }) => code)).toEqual(["slot-range", "too-many"]);
  expect(few[1]).toMatchObject({
    severity: "error",
    keypads: ["gate", "back"],
    message: "from here on 2 more findings are not listed, 2 of them errors",
  });
});

test("as many as may be are all listed", () => {
  expect(findingsOf(site, { today, mostFindings: 3 })).toHaveLength(3);
});

test("a text of nothing but slips has no more findings than anybody reads", () => {
  const findings = findingsOf(siteOf(Array.from({ length: 12_000 }, (_, index) => `holder h${index}`).join("\n")), { today });
  expect(findings).toHaveLength(mostFindings + 1);
  expect(findings.at(-1)?.code).toBe("too-many");
});
