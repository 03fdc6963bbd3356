import { expect, test } from "vitest";
import { fixesIn } from "../../support/fixes.ts";
import { checkFindings, mullion, siteOf } from "../../support/fixture.ts";

const came = mullion`
  model wader "Comes with codes" {
    relays 1 = 1
    slots 1..9 per relay
    codes 4 digits
    enter * {installer} #
    leave * *
    put code 1 {slot} {code} #
    clear slot 3 {slot} #
    set installer 4 {code} {code} #
    set all-relay 5 {code} #
    clear all-relay 6 #
    open code {code}
    open all-relay 1 * {code}
    factory {
      installer code 3069
      all-relay code 8306
      relay 1 { 1 code 2718 }
    }
  }
`;

test("the installer code, the all-relay code and a code in a slot that the keypad came with, in any role", () => {
  const findings = checkFindings(mullion`
    ${came}
    holder u1 "Unit 1" code 2718
    holder u2 "Unit 2" code 8306
    holder mgr "Manager" code 3069
    keypad gate "Gate" : wader {
      installer code mgr
                   //^^^ factory-code
      relay 1 "Gate" {
        1 u1
        //^^ factory-code
        2 u2
        //^^ factory-code
      }
    }
  `);
  expect(findings.every(({ severity }) => severity === "error")).toBe(true);
});

test("where no installer code is said, it is the record's; without a record the factory's", () => {
  const [finding] = checkFindings(mullion`
    holder u1 "Unit 1" code 4829
    keypad gate "Gate" : tiny {
         //^^^^ factory-code
      relay 1 "Gate" { 1 u1 }
    }
    keypad back "Back" : tiny {
      relay 1 "Back" { 1 u1 }
    }
    fitted back 2026-11-20 {
      installer code 6044
    }
  `);
  expect(finding?.message).toBe("no installer code is said, so that it is still the one the keypad came with");
});

test("an installer code that is still to be typed is no factory code", () => {
  checkFindings(mullion`
    keypad gate "Gate" : tiny {
      installer code
                  //^ syntax
      relay 1 spare
    }
  `);
});

test("may be allowed, with a reason", () => {
  const text = mullion`
    keypad gate "Gate" : tiny {
      installer code 3069   // allow factory-code: changed on the first visit
      relay 1 spare
    }
  `;
  expect(checkFindings(text)).toEqual([]);
  expect(siteOf(text).allowances).toHaveLength(1);
});

test("a new code is drawn for the holder that has it", () => {
  const text = mullion`
    holder firm "Our own" code gate 3069
    keypad gate "Gate" : tiny {
      installer code firm.gate
      relay 1 spare
    }
  `;
  expect(fixesIn(text, "factory-code").map(({ fix }) => fix.draws)).toEqual(["firm.gate"]);
});
