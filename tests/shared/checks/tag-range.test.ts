import { expect, test } from "vitest";
import { checkFindings, mullion } from "../../support/fixture.ts";
import { shared, two } from "../../support/models.ts";

test("no tag at all, with and without a place", () => {
  const findings = checkFindings(mullion`
    holder u1 "Unit 1"
      tag a 123,65536
          //^^^^^^^^^ tag-range
      tag b 0x100000000000000
          //^^^^^^^^^^^^^^^^^ tag-range
    //^^^^^^^^^^^^^^^^^^^^^^^ holder-idle
      tag c 72057594037927935
    //^^^^^^^^^^^^^^^^^^^^^^^ holder-idle
    keypad gate "Gate" : tiny {
      installer code 6044
      relay 1 "Gate" { 1 u1.a }
    }
  `);
  expect(findings.find(({ code }) => code === "tag-range")?.keypads).toEqual(["gate"]);
});

test("more than the model's tags have: it holds back the keypads of that model only", () => {
  const [finding] = checkFindings(mullion`
    ${two}
    ${shared}
    holder u1 "Unit 1" code 4829 tag 00623,27706
                                   //^^^^^^^^^^^ tag-range
    keypad gate "Gate" : two {
      installer code 6044
      relay 1 "Foot gate" { 01 u1 02 u1.tag }
      relay 2 spare
    }
    keypad back "Back" : shared {
      installer code 604418
      relay 1 "Back" { 100 u1.tag }
      relay 2 spare
    }
  `);
  expect(finding?.keypads).toEqual(["gate"]);
  expect(finding?.message).toBe("more than a tag's 24 bits, as two reads them");
});

test("in a record", () => {
  checkFindings(mullion`
    keypad gate "Gate" : tiny {
      installer code 6044
      relay 1 spare
    }
    fitted gate 2026-11-20 {
      relay 1 { 1 tag 16777216 }
                    //^^^^^^^^ tag-range
    }
  `);
});
