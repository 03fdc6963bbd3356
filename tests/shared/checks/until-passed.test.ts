import { expect, test } from "vitest";
import { findingsOf } from "../../../shared/checks/run.ts";
import { checkFix } from "../../support/fixes.ts";
import { checkFindings, mullion, siteOf } from "../../support/fixture.ts";
import { two } from "../../support/models.ts";

const site = (until: string) => mullion`
  holder cln "Cleaner"
    until ${until}
    code 5591
  keypad gate "Gate" : tiny {
    installer code 6044
    relay 1 "Gate" { 1 cln }
  }
`;

test.each([
  ["2026-11-24", "2026-11-25", ["until-passed"]],
  ["2026-11-25", "2026-11-25", ["until-soon"]],
  ["2026-12-31", "2027-01-01", ["until-passed"]],
  ["2024-02-29", "2024-03-01", ["until-passed"]],
  ["2024-02-29", "2024-02-29", ["until-soon"]],
  ["2027-03-31", "2026-11-25", []],
])("the last day %s, seen on %s", (until, today, codes) => {
  expect(found(site(until), today)).toEqual(codes);
});

test("as a slot, an all-relay code and an installer code; a credential's own day before its holder's", () => {
  checkFindings(mullion`
    ${two}
    holder cln "Cleaner"
      until 2026-09-30
      code 5591
      code yard 4829 until 2027-09-30
      code all 8620
      code keys 7304
    keypad gate "Gate" : two {
      installer code cln.keys
                   //^^^^^^^^ until-passed
      all-relay code cln.all
                   //^^^^^^^ until-passed
      relay 1 "Foot gate" {
        01 cln
         //^^^ until-passed
        02 cln.yard
      }
      relay 2 spare
    }
  `);
});

test("what has lapsed and is placed nowhere is no news", () => {
  checkFindings(mullion`
    holder cln "Cleaner" code 5591 until 2026-09-30
    keypad gate "Gate" : tiny {
      installer code 6044
      relay 1 spare
    }
  `);
});

test("its line is taken out, comment and all", () => {
  checkFix(
    mullion`
      holder u1 "Unit 1" code 4829
      holder cln "Cleaner" code 5591 until 2026-09-30
      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Gate" {
          1 u1
          2 cln   // until the autumn
          3 u1.tag
        }
      }
    `,
    "until-passed",
    "Remove the entry",
    mullion`
      holder u1 "Unit 1" code 4829
      holder cln "Cleaner" code 5591 until 2026-09-30
      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Gate" {
          1 u1
          3 u1.tag
        }
      }
    `,
  );
});

function found(text: string, today: string): readonly string[] {
  return findingsOf(siteOf(text), { today }).map(({ code }) => code);
}
