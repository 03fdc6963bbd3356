import { expect, test } from "vitest";
import { checkFix } from "../../support/fixes.ts";
import { checkFindings, mullion } from "../../support/fixture.ts";

test("none at all, or only named ones", () => {
  const findings = checkFindings(mullion`
    holder u1 "Unit 1"
    holder u2 "Unit 2" tag bike 8061261
    keypad gate "Gate" : tiny {
      installer code 6044
      relay 1 "Gate" {
        1 u1.tag
           //^^^ tag-missing
        2 u2.tag
           //^^^ tag-missing
        3 u2.bike
      }
    }
  `);
  expect(findings.map(({ message }) => message)).toContain("Unit 2 has no tag without a name; say which of the named ones is meant");
});

test("one of those that the holder has", () => {
  const site = (entry: string) => mullion`
    holder u1 "Unit 1" code 4829 tag bike 8061261
    keypad gate "Gate" : tiny {
      installer code 6044
      relay 1 "Gate" {
        1 u1
        2 ${entry}
      }
    }
  `;
  checkFix(site("u1.tag"), "tag-missing", "Use u1.bike", site("u1.bike"));
});
