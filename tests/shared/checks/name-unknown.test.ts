import { expect, test } from "vitest";
import { checkFix } from "../../support/fixes.ts";
import { checkFindings, mullion } from "../../support/fixture.ts";
import { running } from "../../support/models.ts";

test("holders, models, settings, and what doors and supplies name", () => {
  checkFindings(mullion`
    ${running}
    holder u1 "Unit 1" code 4829
    keypad gate "Gate" : running {
      installer code firm.gate
                   //^^^^ name-unknown
      all-relay code mgr
                   //^^^ name-unknown
      setting "buzzer" 1
            //^^^^^^^^ name-unknown
      relay 1 "Gate" {
        01 u1
        02 u9 or u1.tag
         //^^ name-unknown
            //^^ pair-mode
                  //^^^ tag-missing
      }
    }
    keypad back "Back" : runing {
                       //^^^^^^ name-unknown
    }
    door "Gatte" {
       //^^^^^^^ name-unknown
      lock strike 12 V 350 mA
    }
    supply cupboard "Cupboard" 13.8 V 3 A {
      feeds "Porch", keypad gat
          //^^^^^^^ name-unknown
                          //^^^ name-unknown
    }
  `);
});

test("a record's setting that the model does not have", () => {
  checkFindings(mullion`
    ${running}
    holder u1 "Unit 1" code 4829
    keypad gate "Gate" : running {
      installer code 6044
      relay 1 "Gate" { 01 u1 }
    }
    fitted gate 2026-11-20 {
      model running
      setting "buzzer" 1
            //^^^^^^^^ name-unknown
    }
  `);
});

test("a slip of the finger is put right", () => {
  checkFix(
    mullion`
      holder mgr "Wharf manager" code 4829
      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Gate" {
          1 mrg
        }
      }
    `,
    "name-unknown",
    "Change to mgr",
    mullion`
      holder mgr "Wharf manager" code 4829
      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Gate" {
          1 mgr
        }
      }
    `,
  );
});

test("the missing holder is created after the last one of the file", () => {
  checkFix(
    mullion`
      holder u1 "Unit 1" code 4829   // the pottery
      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Gate" {
          1 u1
          2 loft4
        }
      }
    `,
    "name-unknown",
    "Create holder loft4",
    mullion`
      holder u1 "Unit 1" code 4829   // the pottery
      holder loft4 "loft4"
      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Gate" {
          1 u1
          2 loft4
        }
      }
    `,
    ["code-missing"],
  );
});

test.each([
  ["01 u1 tag", "tag", "; the tag of u1 is written `u1.tag`"],
  ["01 u1 code", "code", "; the code of u1 is written `u1`"],
  ["01 u1 and", "and", "; a code and a tag in one place are joined by `or` or `with`"],
  ["slot 01 u1", "slot", "; a slot is written as its number alone"],
  ["01 u1 02 tag", "tag", ""],
])("a word of everyday speech is told with how it is written here: %s", (entry, word, told) => {
  // Two of a comment's signs stand before the carets.
  const carets = `${" ".repeat(entry.indexOf(word) + 2)}//${"^".repeat(word.length)}`;
  const marks = [`${carets} name-unknown`, ...(told === "" ? [] : [`${carets} slot-number`])];
  const findings = checkFindings(`${running}
holder u1 "Unit 1" code 4829
keypad gate "Gate" : running {
  installer code 6044
  relay 1 "Gate" {
    ${entry}
${marks.join("\n")}
  }
}
`);
  expect(findings.find(({ code }) => code === "name-unknown")?.message).toBe(`no holder is called ${word}${told}`);
});
