import { expect, test } from "vitest";
import { checkFindings, mullion } from "../../support/fixture.ts";
import { running, two } from "../../support/models.ts";

test("in a slot and as an all-relay code, whoever's it is", () => {
  checkFindings(mullion`
    ${two}
    holder u1 "Unit 1" code 6044
    holder u2 "Unit 2" code 4829
    holder mgr "Manager" code 6044
    keypad gate "Gate" : two {
      installer code 6044
      all-relay code mgr
                   //^^^ code-is-installer
      relay 1 "Foot gate" {
        01 u1
         //^^ code-clash
         //^^ code-is-installer
        02 u2
      }
      relay 2 spare
    }
  `);
});

test("the installer code that the record has, where the text does not say one", () => {
  checkFindings(mullion`
    holder u1 "Unit 1" code 6044
    keypad gate "Gate" : tiny {
      relay 1 "Gate" {
        1 u1
        //^^ code-is-installer
      }
    }
    fitted gate 2026-11-20 {
      installer code 6044
    }
  `);
});

const openEnter = mullion`
  model wader "Enters without a key of its own" {
    relays 1 = 1
    slots 1..9 per relay
    codes 2..4 digits installer 6 digits
    length free
    enter {installer} #
    leave * *
    put code 1 {slot} {code} #
    clear slot 3 {slot} #
    set installer 4 {code} {code} #
    open code {code}
    factory { installer code 975310 }
  }
`;

test("a code that begins what enters programming mode", () => {
  const [finding] = checkFindings(mullion`
    ${openEnter}
    holder u1 "Unit 1" code 6044
    holder u2 "Unit 2" code 4829
    keypad gate "Gate" : wader {
      installer code 604418
      relay 1 "Gate" {
        1 u1
        //^^ code-is-installer
        2 u2
      }
    }
  `);
  expect(finding?.message).toBe(
    "with Unit 1's code nobody gets into programming mode at Gate: it is complete before the installer code is",
  );
});

test("a keypad that listens to the last keys hears a code in the middle of it", () => {
  checkFindings(mullion`
    ${running.replace("codes 4..6 digits", "codes 4..6 digits installer 6 digits").replace("code 9753", "code 975310")}
    holder u1 "Unit 1" code 0441
    holder u2 "Unit 2" code 4829
    keypad gate "Gate" : running {
      installer code 604418
      relay 1 "Gate" {
        01 u1
         //^^ code-is-installer
        02 u2
      }
    }
  `);
});
