import { expect, test } from "vitest";
import { findingsOf } from "../../../shared/checks/run.ts";
import { checkFindings, mullion, siteOf, tiny, today } from "../../support/fixture.ts";

test("the tiny model is quiet, and so is an empty file", () => {
  checkFindings(`\n${tiny}`);
  checkFindings("");
});

test("a small site is quiet", () => {
  checkFindings(mullion`
    site "Wren Yard"

    holder u1 "Unit 1" code 4829
    holder u2 "Unit 2" tag 8061261

    keypad gate "Gate" : tiny {
      installer code 6044
      relay 1 "Gate" release 5s {
        1 u1
        2 u2
      }
    }
  `);
});

test("findings come in the order of the files and of the text", () => {
  const findings = findingsOf(
    siteOf(mullion`
      //- main.mullion
      use "holders.mullion"
      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Gate" {
          1 u1
          1 u3
        }
      }
      //- holders.mullion
      holder u1 "Unit 1" code 4829
      holder u2 "Unit 2" code 5591
    `),
    { today },
  );
  expect(findings.map(({ code, file }) => `${file} ${code}`)).toMatchInlineSnapshot(`
    [
      "/main.mullion slot-clash",
      "/main.mullion name-unknown",
      "/holders.mullion holder-idle",
    ]
  `);
});
