import { expect, test } from "vitest";
import { checkFindings, mullion } from "../../support/fixture.ts";
import { shared } from "../../support/models.ts";

test("a relay, a set in another order; a relay and its set are two things", () => {
  const findings = checkFindings(mullion`
    ${shared}
    holder u1 "Unit 1" code 4829
    holder u2 "Unit 2" code 5591
    holder u3 "Unit 3" code 7304
    holder u4 "Unit 4" code 8620
    keypad gate "Gate" : shared {
      installer code 604418
      relay 1 "Foot gate" { 001 u1 }
      relay 01 { 002 u2 }
          //^^ relay-twice
      relay 1+2 { 003 u3 }
      relay 2+1 { 004 u4 }
          //^^^ relay-twice
      relay 2 spare
    }
  `);
  expect(findings[0]?.message).toBe("relay 1 is described already, as Foot gate");
  expect(findings[0]?.related).toHaveLength(1);
});
