import { expect, test } from "vitest";
import { checkFix } from "../../support/fixes.ts";
import { checkFindings, mullion } from "../../support/fixture.ts";
import { fixed, shared, two } from "../../support/models.ts";

test("nothing placed, described or not; spare and no codes are meant; an all-relay code fires all", () => {
  const findings = checkFindings(mullion`
    ${two}
    holder u1 "Unit 1" code 4829
    holder mgr "Manager" code 8620
    keypad gate "Gate" : two {
      installer code 6044
      relay 1 "Foot gate" { 01 u1 }
      relay 2 "Vehicle gate" { }
          //^ relay-unreachable
    }
    keypad back "Back" : two {
         //^^^^ relay-unreachable
      installer code 6044
    }
    keypad yard "Yard" : two {
      installer code 6044
      relay 1 "Porch" no codes
      relay 2 spare
    }
    keypad hall "Hall" : two {
      installer code 6044
      all-relay code mgr
    }
  `);
  expect(findings.map(({ message }) => message)).toEqual([
    "nothing fires Vehicle gate",
    "nothing fires relays 1 and 2 of Back, and nothing says that they are spare",
  ]);
});

test("a set fires its relays", () => {
  checkFindings(mullion`
    ${shared}
    holder u1 "Unit 1" code 4829
    keypad gate "Gate" : shared {
      installer code 604418
      relay 1+2 { 001 u1 }
    }
  `);
});

test("everything placed on it has a length that the keypad never accepts", () => {
  const findings = checkFindings(mullion`
    ${fixed}
    holder u1 "Unit 1" code 482917
    holder u2 "Unit 2" code 5591
    keypad gate "Gate" : fixed {
      installer code 6044
      relay 1 "Foot gate" {
          //^ relay-unreachable
        u1
      //^^ code-length
      }
      relay 2 "Vehicle gate" { u2 }
    }
  `);
  expect(findings[0]?.message).toBe("nothing that is placed on Foot gate ever fires it");
});

test("what cannot be read yet may be what fires it", () => {
  checkFindings(mullion`
    ${two}
    holder u1 "Unit 1"
    keypad gate "Gate" : two {
      installer code 6044
      relay 1 "Foot gate" {
        01 u1
         //^^ code-missing
      }
      relay 2 "Vehicle gate" {
        01
        //^ syntax
      }
    }
    keypad back "Back" : two
                          //^ syntax
  `);
});

test("is said to be spare, where it is described and where it is not", () => {
  const site = (relays: string) => mullion`
    ${two}
    holder u1 "Unit 1" code 4829
    keypad gate "Gate" : two {
      installer code 6044
      relay 1 "Foot gate" { 01 u1 }
      ${relays}
    }
  `;
  checkFix(site('relay 2 "Porch" {\n}'), "relay-unreachable", "Say that it is spare", site('relay 2 "Porch" spare'));
  checkFix(site('relay 2 "Porch" release 5s'), "relay-unreachable", "Say that it has no codes", site('relay 2 "Porch" no codes'));
  checkFix(site('relay 2 "Porch"'), "relay-unreachable", "Say that it is spare", site('relay 2 "Porch" spare'));
  checkFix(site('note "x"'), "relay-unreachable", "Say that relay 2 is spare", site('note "x"\nrelay 2 spare'));
});

test("several at once, in a block on one line", () => {
  checkFix(
    mullion`
      ${two}
      keypad gate "Gate" : two { installer code 6044 }
    `,
    "relay-unreachable",
    "Say that they are spare",
    mullion`
      ${two}
      keypad gate "Gate" : two { installer code 6044
        relay 1 spare
        relay 2 spare
      }
    `,
  );
});
