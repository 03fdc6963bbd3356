import { randomBytes } from "node:crypto";
import { describe, expect, test } from "vitest";
import { parse } from "../../../grammar/parse.ts";
import { findingsOf } from "../../../shared/checks/run.ts";
import { issueCode } from "../../../shared/codes/issue.ts";
import { edited } from "../../../shared/edited.ts";
import { loadSite } from "../../../shared/site/load.ts";
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

describe("what is written stays readable", () => {
  test.each(["code", "tag", "9x", "a b", "", "u1.yard"])("a code cannot be called '%s'", name => {
    expect(issue(site, "u1", name).issued).toEqual({
      not: `${name} cannot be the name of a code: a name is letters, digits, _ and -, begins with a letter, and is neither code nor tag`,
    });
  });

  test("a new line ends as the file's lines do, begins as the line before it, and takes no comment away from that", () => {
    const text = `${mullion`
      ${model}
      holder u1 "Unit 1"
          code 1987 // allow weak-code: until they have moved in
      holder u2 "Unit 2" code 7305 // by the stairs
      keypad gate "Gate" : two {
        installer code 6044
        relay 1 "Gate" {
          1 u1
          2 u2
        }
        relay 2 spare
      }
    `}`.replaceAll("\n", "\r\n");
    const file = "s.mullion";
    const resolved = loadSite(file, asked => (asked === file ? { file, text, ...parse(text) } : undefined));
    for (const [id, before] of [
      ["u1", "until they have moved in"],
      ["u2", "by the stairs"],
    ] as const) {
      const holder = resolved.holders.get(id);
      if (!holder) throw new Error("the text has the holder");
      const issued = issueCode(resolved, holder, "yard", random);
      if ("not" in issued) throw new Error(issued.not);
      const indent = id === "u1" ? /\r\n( *)code 1987/.exec(text)?.[1] : "  ";
      expect(edited(text, [issued.edit])).toBe(text.replace(before, `${before}\r\n${indent}code yard ${issued.code}`));
    }
  });
});

describe("the codes that are allowed", () => {
  const crowded = (relays: string) => {
    const all = Array.from({ length: 100 }, (_, i) => String(i).padStart(2, "0"));
    const taken = all.filter(code => code !== "58" && code !== "27" && code !== "60");
    return `
      policy { weak codes allow }
      model many "One relay" {
        relays ${relays}
        slots 1..200 per relay
        codes 2 digits
        rewrite replaces
        enter * {installer} #
        put code 1 {relay} {slot} {code} #
        open code {code}
        factory { installer code 60 }
      }
${taken.map((code, i) => `      holder h${i} "Holder ${i}" code ${code}`).join("\n")}
      holder u1 "Unit 1" code 58
      keypad gate "Gate" : many {
        installer code 60
        relay 1 "Foot gate" {
${taken.map((_, i) => `          ${i + 1} h${i}`).join("\n")}
          199 u1
        }
        relay 2 spare
      }
    `;
  };

  test("codes of the same door are never near: of a full keypad with one door the only code left is drawn", () => {
    expect(issue(crowded("1 = 1, 2 = 2"), "u1").issued).toMatchObject({ code: "27" });
  });

  test("where the last keys count, a code that holds another in it, or stands in another, is not drawn", () => {
    const text = mullion`
      policy { weak codes allow near codes 1 digits }
      model last "Hears the last keys" {
        relays 1 = 1
        slots 1..30 per relay
        codes 1..3 digits
        length free
        listens to the last keys
        rewrite replaces
        enter * {installer} #
        put code 1 {slot} {code} #
        open code {code}
        factory { installer code 999 }
      }
      ${[..."01235678"].map((code, i) => `holder h${i} "Holder ${i}" code ${code}`).join("\n      ")}
      holder h8 "Holder 8" code 994
      holder u1 "Unit 1" code 44
      keypad gate "Gate" : last {
        installer code 999
        relay 1 "Gate" {
          1 u1
          2 h8
          ${Array.from({ length: 8 }, (_, i) => `${i + 3} h${i}`).join("\n          ")}
        }
      }
    `;
    // Of two digits: only 4 and 9 open nothing alone; 44 is there, 99 begins the installer code, 94 stands at the end of a longer one.
    expect(issue(text, "u1").issued).toMatchObject({ code: "49" });
  });

  test("a new code is as long as the keypad's codes are by the installer code that a holder has", () => {
    const text = mullion`
      model follows "Length of the installer code" {
        relays 1 = 1
        slots 1..30 per relay
        codes 4 | 6 digits
        length follows installer code
        rewrite replaces
        enter * {installer} #
        put code 1 {slot} {code} #
        set installer 2 {code} {code} #
        open code {code}
        factory { installer code 971358 }
      }
      holder firm "Our own codes" code gate 6041
      holder u1 "Unit 1"
      holder u2 "Unit 2"
      keypad gate "Gate" : follows {
        installer code firm.gate
        relay 1 "Gate" {
          1 u1
        }
      }
    `;
    for (const id of ["u1", "u2"]) expect(issue(text, id).issued).toMatchObject({ code: expect.stringMatching(/^\d{4}$/) });
  });

  test("whoever is on no keypad yet is kept clear of all of them, or told to be placed first", () => {
    const six = `
      model six "Six digits" {
        relays 1 = 1
        slots 1..30 per relay
        codes 6 digits
        enter * {installer} #
        put code 1 {slot} {code} #
        open code {code}
        factory { installer code 975318 }
      }
      keypad yard "Yard" : six {
        installer code 604418
        relay 1 "Yard" {
          1 u2
        }
      }
    `;
    expect(issue(`${site}${six}`, "u3").issued).toEqual({
      not: "Unit 3 is on no keypad yet, and no length of code fits them all (Gate, Yard): write its entry first",
    });
  });
});
