import { expect, test } from "vitest";
import { checkFindings, mullion } from "../../support/fixture.ts";
import { two } from "../../support/models.ts";

test("an installer code and an all-relay code are places; what is half typed is not asked for", () => {
  const findings = checkFindings(mullion`
    ${two}
    holder firm "Our own" code gate 6044
    holder mgr "Manager"
      code 4829
      tag 8061261 lost
      code old 5591
    //^^^^^^^^^^^^^ holder-idle
      tag
       //^ syntax
    holder note "Nobody yet" note "moves in next year"
    keypad gate "Gate" : two {
      installer code firm.gate
      all-relay code mgr
      relay 1 "Foot gate" { }
      relay 2 "Vehicle gate" { }
    }
  `);
  expect(findings.find(({ code }) => code === "holder-idle")).toMatchObject({ severity: "hint", tags: ["unnecessary"] });
});

test("a file of holders on its own places nobody, and that is no news", () => {
  checkFindings(mullion`
    holder u1 "Unit 1" code 4829
  `);
});
