import { expect, test } from "vitest";
import { checkFindings, mullion } from "../../support/fixture.ts";

const fed = (lock: string, supply: string) => mullion`
  holder u1 "Unit 1" code 4829
  keypad gate "Gate" : tiny {
    installer code 6044
    relay 1 "Foot gate" release 5s { 1 u1 }
  }
  door "Foot gate" { lock ${lock} within 15 % }
  ${supply}
`;
const decides = "local code, the maker's instructions and a competent person decide";

// BS 5839-1's formula by hand: 1.25 × (0.25 A × 24 h) = 7.5 Ah.
test("a lock that is held all the time", () => {
  const findings = checkFindings(
    fed(
      "bolt 12 V 250 mA",
      mullion`
        supply cupboard "Riser cupboard" 13.8 V 3 A {
          battery 12 V 7 Ah for 24 h
        //^^^^^^^^^^^^^^^^^^^^^^^^^^ battery-short
          feeds "Foot gate"
        }
      `,
    ),
  );
  expect(findings.map(({ message }) => message)).toEqual([
    `the battery of Riser cupboard holds 7 Ah, less than the 7.5 Ah that 24 h take: 1.25 for age × (250 mA × 24 h); assumed: a fifth of the capacity lost to age (1.25 of BS 5839-1, borrowed from fire alarms), a capacity for 20 h and Peukert's exponent 1.2 in the form for a rated time; ${decides}`,
  ]);
});

// 1.25 × 1.75 × 1.5 A × 0.5 h = 1.64 Ah; 0.25 A in the mean of 3 h is under the 0.06 A of 1.2 Ah / 20 h: 20 h × (1.2 / (0.25 × 20))^1.2 = 3.6 h.
test("a lock that takes power only to open, heavy for its battery", () => {
  const findings = checkFindings(
    fed(
      "bolt 12 V 1.5 A fail-secure",
      mullion`
        supply cupboard "Riser cupboard" 13.8 V 3 A {
          battery 12 V 1.2 Ah for 3 h
        //^^^^^^^^^^^^^^^^^^^^^^^^^^^ battery-short
          feeds "Foot gate"
        }
      `,
    ),
  );
  expect(findings.map(({ message }) => message)).toEqual([
    `the battery of Riser cupboard holds 1.2 Ah, less than the 1.64 Ah that 3 h take: 1.25 for age × (0 A × 3 h + D 1.75 × 1.5 A × 0.5 h of opening); assumed: a fifth of the capacity lost to age (1.25 of BS 5839-1, borrowed from fire alarms), locks open for 0.5 h in all with D 1.75 of BS 5839-1, a capacity for 20 h and Peukert's exponent 1.2 in the form for a rated time; ${decides}`,
  ]);
});

// 1.25 × 4 A × 1 h = 5 Ah of 5 Ah: enough by that sum; 20 h × (5 / (4 × 20))^1.2 = 0.72 h by Peukert's law: not enough.
test("Peukert's law where the current is heavy, the volts where the supply cannot charge", () => {
  const findings = checkFindings(
    fed(
      "bolt 12 V 4 A",
      mullion`
        supply cupboard "Riser cupboard" 12.5 V 5 A {
          battery 24 V 5 Ah for 1 h down to 12 V
        //^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ battery-short
          feeds "Foot gate"
        }
      `,
    ),
  );
  expect(findings.map(({ message }) => message)).toEqual([
    `the battery of Riser cupboard lasts 0.72 h at 4 A by Peukert's law when new, less than the 1 h asked, and is of 24 V and its supply gives 12.5 V, too few to charge it; assumed: a fifth of the capacity lost to age (1.25 of BS 5839-1, borrowed from fire alarms), a capacity for 20 h and Peukert's exponent 1.2 in the form for a rated time; ${decides}`,
  ]);
});

test("without hours nothing is asked", () => {
  checkFindings(
    fed(
      "bolt 12 V 4 A",
      mullion`
        supply cupboard "Riser cupboard" 13.8 V 5 A {
          battery 12 V 1.2 Ah
          feeds "Foot gate"
        }
      `,
    ),
  );
});
