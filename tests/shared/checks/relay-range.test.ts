import { expect, test } from "vitest";
import { checkFix } from "../../support/fixes.ts";
import { checkFindings, mullion } from "../../support/fixture.ts";
import { shared, two } from "../../support/models.ts";

test("a relay and a set that the model does not have", () => {
  const findings = checkFindings(mullion`
    ${two}
    holder u1 "Unit 1" code 4829
    holder u2 "Unit 2" code 5591
    holder u3 "Unit 3" code 7304
    keypad gate "Gate" : two {
      installer code 6044
      relay 1 "Foot gate" { 01 u1 }
      relay 2 "Vehicle gate" { 01 u2 }
      relay 1+2 { 02 u3 }
          //^^^ relay-range
      relay 3 spare
          //^ relay-range
    }
  `);
  expect(findings[0]?.message).toBe("two has no relay 1+2; it has 1 and 2");
});

test("a set in either order, where the model has it", () => {
  checkFindings(mullion`
    ${shared}
    holder u1 "Unit 1" code 4829
    keypad gate "Gate" : shared {
      installer code 604418
      relay 2+1 { 001 u1 }
    }
  `);
});

test("in a record", () => {
  checkFindings(mullion`
    keypad gate "Gate" : tiny {
      installer code 6044
      relay 1 spare
    }
    fitted gate 2026-11-20 {
      relay 2 { 1 code 4829 }
          //^ relay-range
    }
  `);
});

test("an empty one is taken out", () => {
  checkFix(
    mullion`
      holder u1 "Unit 1" code 4829
      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Gate" { 1 u1 }
        relay 2 "Porch" spare   // not there
      }
    `,
    "relay-range",
    "Remove this relay",
    mullion`
      holder u1 "Unit 1" code 4829
      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Gate" { 1 u1 }
      }
    `,
  );
});
