/** What is found of a site whose codes are sealed and shut: nothing that is not found when they are open, and what was not looked for is said. */
import { describe, expect, test } from "vitest";
import { parse } from "../../../grammar/parse.ts";
import type { Check } from "../../../shared/checks/check.ts";
import { checks } from "../../../shared/checks/index.ts";
import { findingsOf } from "../../../shared/checks/run.ts";
import type { FileId, SourceFile } from "../../../shared/finding.ts";
import { planFor } from "../../../shared/plan/start.ts";
import { printNames } from "../../../shared/sealed/names.ts";
import { noIdentity, shutFile } from "../../../shared/sealed/shut.ts";
import { loadSite } from "../../../shared/site/load.ts";
import type { Site } from "../../../shared/site/site.ts";
import { checkFindings, fixture, mullion, opener, siteOf, today } from "../../support/fixture.ts";

/**
 * The same site with its holders and its records in sealed files that nobody opened. What stays behind is the text as it was with
 * blanks in place of what was sealed, so that places can be compared.
 */
function shutSite(text: string): Site {
  const read = fixture(text);
  const open = opener(read);
  const taken = new Map<FileId, SourceFile>();
  const source = (file: FileId): SourceFile | undefined => {
    if (taken.has(file)) return taken.get(file);
    if (file.endsWith(".people.mullion.age")) return undefined;
    if (file.endsWith(".fitted.mullion")) return undefined;
    if (file.endsWith(".fitted.mullion.age")) {
      const plain = open(file.slice(0, -".age".length));
      return plain && shutFile(file, undefined, noIdentity);
    }
    const plain = open(file);
    if (!plain) return undefined;
    const holders = plain.tree.declarations.filter(({ kind }) => kind === "holder");
    if (holders.length === 0) return plain;
    const sealed = `${file.replace(/\.mullion$/, "")}.people.mullion.age`;
    taken.set(sealed, shutFile(sealed, printNames(sealed, { ...plain.tree, declarations: holders }, undefined), noIdentity));
    const kept = plain.tree.declarations.filter(({ kind }) => kind !== "holder");
    const nowhere = { start: 0, end: 0 };
    const use = { kind: "use" as const, ...nowhere, keyword: { ...nowhere, text: "use" }, path: { ...nowhere, text: sealed } };
    const inHolder = (at: number) => holders.some(({ start, end }) => start <= at && at <= end);
    const comments = plain.tree.comments.filter(({ start }) => !holders.some(({ end }) => plain.text.slice(end, start).trim() === ""));
    return {
      ...plain,
      tree: { ...plain.tree, declarations: [use, ...kept], comments },
      problems: plain.problems.filter(({ start }) => !inHolder(start)),
    };
  };
  return loadSite(read.root, source);
}

/** Codes and places of findings, but for what is said of sealing itself. */
function placesOf(site: Site, context: Parameters<typeof findingsOf>[1]): readonly string[] {
  return (
    findingsOf(site, context)
      .filter(({ code }) => code !== "sealed-shut")
      // A place in a names file is one in a sealed file, which cannot be the same.
      .map(({ code, file, start }) => (file.endsWith(".names") ? code : `${code} ${file} ${start}`))
  );
}

const all = checks as readonly Check[];
const needsOpen = all.filter(check => check.needsOpen).map(({ code }) => code);
const examples = all
  .filter(({ code }) => code !== "sealed-shut" && code !== "record-plain")
  .flatMap(({ code, explain }) => [
    { name: `${code}, triggers`, text: explain.triggers, context: { today, ...explain.context } },
    { name: `${code}, quiet`, text: explain.quiet, context: { today, ...explain.context } },
  ]);

test.each(examples)("$name: shut, nothing is found that is not found open", ({ text, context }) => {
  const open = placesOf(siteOf(text), context);
  const known = new Set([...open, ...open.map(place => place.split(" ")[0])]);
  expect(placesOf(shutSite(text), context).filter(place => !known.has(place))).toEqual([]);
});

test("what a shut file hides from a check is what the check says that it needs", () => {
  const silent = all
    .filter(({ code, explain, across }) => {
      // What is in the sealed text itself is reported there.
      const context = { today, ...explain.context };
      const shut = shutSite(explain.triggers);
      if (shut.shut.length === 0 || across) return false;
      const open = findingsOf(siteOf(explain.triggers), context).filter(one => one.code === code);
      return open.length > findingsOf(shut, context).filter(one => one.code === code).length;
    })
    .map(({ code }) => code);
  // Found in a sealed text itself, or counted from what the others find.
  const inHolders = ["syntax", "name-twice", "merge-conflict", "record-plain", "allow-unused", "too-many"];
  expect(silent.filter(code => !needsOpen.includes(code as never) && !inHolders.includes(code))).toEqual([]);
  // And none says so that would find everything without.
  expect(needsOpen.filter(code => !silent.includes(code) && code !== "installer-reused" && code !== "tag-twice")).toEqual([]);
});

describe("one finding for each sealed file", () => {
  const text = mullion`
    //- main.mullion
    use "people.mullion.age"
      //^^^^^^^^^^^^^^^^^^^^ sealed-shut
    use "firm.mullion.age"
      //^^^^^^^^^^^^^^^^^^ sealed-shut

    site "Wren Yard"
       //^^^^^^^^^^^ sealed-shut
    keypad gate "Gate" : tiny {
      installer code firm.gate
      relay 1 "Gate" {
        1 u1
        2 u9
        3 u1.yard  // allow weak-code: nobody can say whether it is
        //^^ code-missing
      }
    }
    //- people.names
    holder u1: code
    //- people.mullion.age
    //- firm.mullion.age
    //- main.fitted.mullion.age
  `;

  test("that says what was not checked, and whether names could be", () => {
    const findings = checkFindings(text.replace("//^^ code-missing", "//   ^^^^ code-missing")).filter(
      ({ code }) => code === "sealed-shut",
    );
    const [people, firm, record] = findings.map(({ message }) => message);
    expect(people).toContain("people.mullion.age is sealed, and no identity was given: what needs its text was not checked (");
    for (const code of needsOpen) expect(people).toContain(code);
    expect(people).not.toContain("names file");
    expect(firm).toContain("no names file beside it");
    expect(record).toContain("main.fitted.mullion.age is sealed");
    expect(record).not.toContain("names file");
    expect(findings.map(({ severity }) => severity)).toEqual(["information", "information", "information"]);
  });

  test("and no plan", () => {
    const site = siteOf(text.replace(/\n.*\/\/\^\^ code-missing/, ""));
    const gate = site.keypads.get("gate");
    const plan = gate && planFor(site, gate);
    expect(plan && "cannot" in plan && plan.cannot).toBe(
      "main.fitted.mullion.age and people.mullion.age and firm.mullion.age are sealed, and no identity was given",
    );
  });
});

test("a names file that was written for a sealed file of another size says nothing", () => {
  const names = "sealed 900 bytes for 0123456789abcdef\nholder u1: code\n";
  expect(shutFile("/people.mullion.age", names, noIdentity, 900).sealed?.names?.holders.length).toBe(1);
  expect(shutFile("/people.mullion.age", names, noIdentity, 901).sealed?.names).toBe(undefined);
  expect(shutFile("/people.mullion.age", "holder u1: code\n", noIdentity, 901).sealed?.names?.holders.length).toBe(1);
});

test("keypads, models and doors that may be in a sealed file are not missed", () => {
  checkFindings(mullion`
    //- main.mullion
    use "all.mullion.age"
      //^^^^^^^^^^^^^^^^^ sealed-shut
    holder u1 "Unit 1" code 4829
    keypad back "Back" : heron { installer code 6044 relay 1 "Back" { 1 u1 } }
    keypad side "Side" : robin { installer code 6044 relay 1 "Side" { 1 u1 } }
                       //^^^^^ name-unknown
    door "Front" { lock strike 12 V 350 mA fail-secure }
    supply box "Box" 12 V 1 A { feeds "Front", keypad front, keypad yard }
                                                                  //^^^^ name-unknown
    //- all.names
    model heron
    keypad front
    //- all.mullion.age
  `);
});

test("a path that says the plain file is told that the sealed one is there", () => {
  const [finding] = checkFindings(mullion`
    //- main.mullion
    use "people.mullion"
      //^^^^^^^^^^^^^^^^ use-missing
    //- people.mullion.age
  `);
  expect(finding?.message).toBe("there is no file people.mullion; people.mullion.age is there");
});

test("a file that is opened is a file like any other", () => {
  const text = `holder u1 "Unit 1" code 4829\n`;
  const sealed = "/people.mullion.age";
  const main = `use "people.mullion.age"\nkeypad gate "Gate" : none { relay 1 "Gate" { 1 u1 } }\n`;
  const site = loadSite("/main.mullion", file => {
    if (file === sealed) return { file, text, ...parse(text), sealed: { file, open: true } };
    return file === "/main.mullion" ? { file, text: main, ...parse(main) } : undefined;
  });
  expect(site.shut).toEqual([]);
  expect(site.holders.get("u1")?.credentials[0]?.digits).toBe("4829");
});
