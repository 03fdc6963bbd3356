import { expect, test } from "vitest";
import { findingsOf } from "../../../shared/checks/run.ts";
import { checkFindings, mullion, siteOf } from "../../support/fixture.ts";

test.each([
  ["2026-11-25", "Cleaner's code has its last day today, 2026-11-25"],
  ["2026-11-26", "Cleaner's code has its last day tomorrow, 2026-11-26"],
  ["2026-12-09", "Cleaner's code has its last day in 14 days, 2026-12-09"],
  ["2026-12-10", undefined],
])("the last day %s, seen on 25 November", (until, message) => {
  const site = siteOf(mullion`
    holder cln "Cleaner" code 5591 until ${until}
    keypad gate "Gate" : tiny {
      installer code 6044
      relay 1 "Gate" { 1 cln }
    }
  `);
  const [finding] = findingsOf(site, { today: "2026-11-25" });
  expect(finding?.message).toBe(message);
  expect(finding?.severity).toBe(message && "information");
});

test("across the end of a year", () => {
  checkFindings(
    mullion`
      holder cln "Cleaner" code 5591 until 2027-01-08
      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Gate" {
          1 cln
          //^^^ until-soon
        }
      }
    `,
    { today: "2026-12-31" },
  );
});
