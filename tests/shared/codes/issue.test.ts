import { randomBytes } from "node:crypto";
import { describe, expect, test } from "vitest";
import { findingsOf } from "../../../shared/checks/run.ts";
import { issueCode } from "../../../shared/codes/issue.ts";
import { edited } from "../../../shared/edited.ts";
import { fixture, mullion, siteOf, today } from "../../support/fixture.ts";

const random = (count: number) => randomBytes(count);

const model = `
      model two "Two relays" {
        relays 1 = 1, 2 = 2
        slots 1..30 per relay
        codes 2..5 digits
        length free
        rewrite replaces
        enter * {installer} #
        put code 1 {relay} {slot} {code} #
        open code {code}
        factory { installer code 9753 }
      }
`;
const site = `
      ${model}
      holder u1 "Unit 1"
        code 1987 // on the list
        tag 8061261
      holder u2 "Unit 2" code 7305
      holder u3 "Unit 3"
      keypad gate "Gate" : two {
        installer code 6044
        relay 1 "Foot gate" {
          1 u1
        }
        relay 2 "Porch" {
          1 u2
        }
      }
`;

function issue(text: string, id: string, name?: string) {
  const read = fixture(text);
  const resolved = siteOf(read);
  const holder = resolved.holders.get(id);
  if (!holder) throw new Error("the fixture has the holder");
  const issued = issueCode(resolved, holder, name, random);
  return { before: read.files.get(read.root) ?? "", issued };
}

test("only the digits change, and the new code raises nothing", () => {
  for (let round = 0; round < 50; round++) {
    const { before, issued } = issue(site, "u1");
    if ("not" in issued) throw new Error(issued.not);
    const after = edited(before, [issued.edit]);
    expect(after).toBe(before.replace("code 1987", `code ${issued.code}`));
    expect(issued.code).toMatch(/^\d{4}$/);
    const codes = findingsOf(siteOf(`\n${after}`), { today }).map(finding => finding.code);
    expect(codes.filter(code => ["weak-code", "near-codes", "code-clash", "code-is-installer"].includes(code))).toEqual([]);
  }
});

test("a holder without a code gets one, of a length that the keypads take", () => {
  const { before, issued } = issue(site, "u3");
  if ("not" in issued) throw new Error(issued.not);
  expect(edited(before, [issued.edit])).toContain(`holder u3 "Unit 3" code ${issued.code}\n`);
});

test("a second code gets its name", () => {
  const { before, issued } = issue(site, "u2", "yard");
  if ("not" in issued) throw new Error(issued.not);
  expect(edited(before, [issued.edit])).toContain(`holder u2 "Unit 2" code 7305\n  code yard ${issued.code}\n`);
});

describe("where none can be drawn it says why", () => {
  test("a name that is a tag's", () => {
    const { issued } = issue(
      mullion`
      ${model}
      holder u1 "Unit 1" tag bike 8061261
      keypad gate "Gate" : two {
        installer code 6044
        relay 1 "Gate" {
          1 u1.bike
        }
        relay 2 spare
      }
    `,
      "u1",
      "bike",
    );
    expect(issued).toEqual({ not: "bike of Unit 1 is a tag" });
  });

  test("two keypads without a length in common", () => {
    const { issued } = issue(
      mullion`
      ${model}
      model six "Six digits" {
        relays 1 = 1
        slots 1..30 per relay
        codes 6 digits
        rewrite replaces
        enter * {installer} #
        put code 1 {slot} {code} #
        open code {code}
        factory { installer code 975318 }
      }
      holder u1 "Unit 1" code 4829
      keypad gate "Gate" : two {
        installer code 6044
        relay 1 "Gate" {
          1 u1
        }
        relay 2 spare
      }
      keypad yard "Yard" : six {
        installer code 604418
        relay 1 "Yard" {
          1 u1
        }
      }
    `,
      "u1",
    );
    expect(issued).toEqual({ not: "no length of code fits every keypad where it is used (Gate, Yard)" });
  });

  test("every code taken or too near: the rules that leave none are named", () => {
    const taken = Array.from({ length: 10 }, (_, i) => `      holder h${i} "Holder ${i}" code ${i}${(i * 3 + 4) % 10}`).join("\n");
    const entries = Array.from({ length: 10 }, (_, i) => `          ${i + 1} h${i}`).join("\n");
    const { issued } = issue(
      `
      policy { weak codes allow }
      ${model}
${taken}
      holder u1 "Unit 1" code 58
      keypad gate "Gate" : two {
        installer code 6044
        relay 1 "Gate" {
${entries}
        }
        relay 2 "Porch" {
          1 u1
        }
      }
    `,
      "u1",
    );
    expect("not" in issued && issued.not).toMatch(/^no code of 2 digits is left for Unit 1: each .*is fewer than 2 digits from another/);
  });
});
