/** `mullion sheet`: which keypads get one, where it is written, and what keeps it back. */
import { chmodSync, existsSync, mkdirSync, readdirSync, readFileSync, statSync, symlinkSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { sheet } from "../../../server/cli/commands/sheet.ts";
import { formats } from "../../../shared/sheet/formats/index.ts";
import { clashing, folderOf, model, mullion, site } from "./support/mullion.ts";

const second = `
holder u3 "Unit 3" code 7304

keypad yard "Yard door" : tiny {
  installer code own.gate

  relay 1 "Yard door" {
    1 u3
  }
}
`;
const one = { "tiny.mullion": model, "yard.mullion": site };
const two = { "tiny.mullion": model, "yard.mullion": site + second };
const oneHeld = { "tiny.mullion": model, "yard.mullion": clashing + second };

const json = (cwd: string, ...more: readonly string[]) => {
  const { status, out, err } = mullion(["sheet", "yard.mullion", "--format", "json", "-o", "-", ...more], { cwd });
  return { status, err, keypads: status === 2 ? [] : JSON.parse(out).keypads };
};

test("the formats offered are those that there are", () => {
  expect(
    sheet.options
      .find(({ flags }) => flags.startsWith("--format"))
      ?.choices?.slice()
      .sort(),
  ).toEqual([...formats.map(({ name }) => name), "pdf"].sort());
});

describe("where it is written", () => {
  test("one file a keypad beside the site, for its owner's eyes", () => {
    const cwd = folderOf({ "a/tiny.mullion": model, "a/yard.mullion": site + second });
    const { status, out, err } = mullion(["sheet", "a/yard.mullion"], { cwd });
    expect({ status, err }).toEqual({ status: 0, err: "" });
    expect(out).toMatch(
      /^gate "Lane gate": \d+ entries, \d+ keys, about \d+ min {2}a\/yard-gate-sheet\.html\nyard "Yard door": \d+ entries, \d+ keys, about \d+ min {2}a\/yard-yard-sheet\.html\n$/,
    );
    expect(readdirSync(join(cwd, "a")).sort()).toEqual(["tiny.mullion", "yard-gate-sheet.html", "yard-yard-sheet.html", "yard.mullion"]);
    expect(statSync(join(cwd, "a/yard-gate-sheet.html")).mode & 0o777).toBe(0o600);
  });

  test.each(formats)("$name: the same as on standard output", ({ name, extension }) => {
    const cwd = folderOf(one);
    const { status, out } = mullion(["sheet", "yard.mullion", "--format", name, "-o", "-", "--today", "2026-03-04"], { cwd });
    expect(status).toBe(0);
    expect(out).toContain("4829");
    mullion(["sheet", "yard.mullion", "--format", name, "--today", "2026-03-04"], { cwd });
    expect(readFileSync(join(cwd, `yard-gate-sheet.${extension}`), "utf8")).toBe(out);
  });

  test("-o FOLDER: one file a keypad there; -o FILE: all in one", () => {
    const cwd = folderOf(two);
    mkdirSync(join(cwd, "papers"));
    expect(mullion(["sheet", "yard.mullion", "-o", "papers"], { cwd }).status).toBe(0);
    expect(readdirSync(join(cwd, "papers")).sort()).toEqual(["yard-gate-sheet.html", "yard-yard-sheet.html"]);
    const { status, out } = mullion(["sheet", "yard.mullion", "-o", "all.txt", "--format", "txt"], { cwd });
    expect(status).toBe(0);
    expect(out).toMatch(/\nwritten to all\.txt\n$/);
    const all = readFileSync(join(cwd, "all.txt"), "utf8");
    expect(["Lane gate", "Yard door"].filter(label => !all.includes(label))).toEqual([]);
  });

  test.each([
    ["a folder that is not there", "no/where/x.md", "there is no such file or folder"],
    ["a device", "/dev/null", "it is a pipe or a device, not a file"],
  ])("%s is refused", (_what, path, reason) => {
    expect(mullion(["sheet", "yard.mullion", "-o", path], { cwd: folderOf(one) })).toEqual({
      status: 2,
      out: "",
      err: `mullion: cannot write ${path}: ${reason}\n`,
    });
  });

  test("a file of the site is never written over, be it through a link", () => {
    const cwd = folderOf(one);
    symlinkSync("tiny.mullion", join(cwd, "link.md"));
    for (const path of ["yard.mullion", "./tiny.mullion", "link.md"])
      expect(mullion(["sheet", "yard.mullion", "-o", path], { cwd })).toEqual({
        status: 2,
        out: "",
        err: `mullion: ${path} is a file of the site; a sheet is not written over it\n`,
      });
    expect([readFileSync(join(cwd, "yard.mullion"), "utf8"), readFileSync(join(cwd, "tiny.mullion"), "utf8")]).toEqual([site, model]);
  });

  test("a read-only file is refused and stays as it was", () => {
    const cwd = folderOf({ ...one, "old.md": "old" });
    chmodSync(join(cwd, "old.md"), 0o444);
    expect(mullion(["sheet", "yard.mullion", "-o", "old.md"], { cwd }).err).toBe("mullion: cannot write old.md: it is read-only\n");
    expect(readFileSync(join(cwd, "old.md"), "utf8")).toBe("old");
    expect(readdirSync(cwd).sort()).toEqual(["old.md", "tiny.mullion", "yard.mullion"]);
  });
});

describe("what keeps it back", () => {
  test("a keypad with an error gets none, the other one does; status 1", () => {
    const cwd = folderOf(oneHeld);
    const { status, out, err } = mullion(["sheet", "yard.mullion"], { cwd });
    expect({ status, err }).toEqual({ status: 1, err: "" });
    expect(out).toContain("slot-clash");
    expect(out).toMatch(/\ngate "Lane gate": no sheet, an error holds it back\n$/);
    expect([existsSync(join(cwd, "yard-gate-sheet.html")), existsSync(join(cwd, "yard-yard-sheet.html"))]).toEqual([false, true]);
  });

  test("standard output stays the sheet's alone: errors go to the other", () => {
    const { status, err, keypads } = json(folderOf(oneHeld));
    expect(status).toBe(1);
    expect(keypads.map(({ keypad }: { keypad: string }) => keypad)).toEqual(["yard"]);
    expect(err).toContain("slot-clash");
  });

  test("an error at another keypad than the one asked for does not", () => {
    expect(mullion(["sheet", "yard.mullion", "--keypad", "yard"], { cwd: folderOf(oneHeld) }).status).toBe(0);
  });
});

describe("--keypad", () => {
  test("may stand more than once, in the order wanted", () => {
    const ids = ({ keypad }: { keypad: string }) => keypad;
    expect(json(folderOf(two), "--keypad", "yard", "--keypad", "gate").keypads.map(ids)).toEqual(["yard", "gate"]);
    expect(json(folderOf(two), "--keypad", "gate").keypads.map(ids)).toEqual(["gate"]);
  });

  test("an unknown one is wrong usage, with a suggestion", () => {
    expect(mullion(["sheet", "yard.mullion", "--keypad", "gat"], { cwd: folderOf(two) })).toEqual({
      status: 2,
      out: "",
      err: "mullion: the site has no keypad gat (did you mean gate?); it has gate, yard\n",
    });
  });

  test("a file without keypads says so", () => {
    expect(mullion(["sheet", "tiny.mullion"], { cwd: folderOf(one) }).err).toBe("mullion: tiny.mullion describes no keypad\n");
  });
});

describe("codes", () => {
  test("--hide-codes leaves none", () => {
    for (const { name } of formats) {
      const { out } = mullion(["sheet", "yard.mullion", "--format", name, "-o", "-", "--hide-codes"], { cwd: folderOf(one) });
      expect(["4829", "5590", "6044", "2468"].filter(code => out.includes(code))).toEqual([]);
    }
  });

  test("the installer code stands in digits only where it is asked for", () => {
    const cwd = folderOf(one);
    expect(mullion(["sheet", "yard.mullion", "--format", "txt", "-o", "-"], { cwd }).out).not.toContain("6044");
    expect(mullion(["sheet", "yard.mullion", "-o", "-", "--show-installer"], { cwd }).out).toContain("6044");
  });

  test("none stands in what is said of a sheet", () => {
    const { out, err } = mullion(["sheet", "yard.mullion"], { cwd: folderOf(two) });
    expect(["4829", "5590", "6044", "2468", "7304"].filter(code => (out + err).includes(code))).toEqual([]);
  });
});

test("JSON carries what was proved, and where it starts from", () => {
  const { status, keypads } = json(folderOf(one), "--from", "factory", "--today", "2026-03-04");
  expect(status).toBe(0);
  expect(keypads[0]).toMatchObject({
    keypad: "gate",
    model: "tiny",
    from: "factory",
    date: "2026-03-04",
    proof: { reachesTarget: true, safeAtEveryEntry: true },
  });
  expect(keypads[0].sessions.at(-1).entries.map(({ keys }: { keys: readonly string[] }) => keys)).toEqual([
    ["7", "1", "1", "4829", "OK"],
    ["7", "1", "2", "5590", "OK"],
  ]);
});

describe("--from", () => {
  const record = "fitted gate 2026-01-02 {\n  model tiny\n  installer code 6044\n  relay 1 {\n    1 code 4829\n    3 code 7304\n  }\n}\n";
  const keys = (keypads: readonly { sessions: readonly { entries: readonly { keys: readonly string[] }[] }[] }[]) =>
    keypads.flatMap(({ sessions }) => sessions.flatMap(({ entries }) => entries.map(entry => entry.keys.join(" "))));
  const difference = ["9 1 3 OK", "7 1 2 5590 OK"];

  test("without it the record beside the site counts: only the difference is typed", () => {
    const { status, keypads } = json(folderOf({ ...one, "yard.fitted.mullion": record }));
    expect({ status, from: keypads[0].from, keys: keys(keypads) }).toEqual({ status: 0, from: "2026-01-02", keys: difference });
  });

  test("a record elsewhere takes its place", () => {
    const cwd = folderOf({ ...one, "old/then.fitted.mullion": record, "yard.fitted.mullion": "fitted gate unknown\n" });
    const { status, keypads } = json(cwd, "--from", "old/then.fitted.mullion");
    expect({ status, from: keypads[0].from, keys: keys(keypads) }).toEqual({ status: 0, from: "2026-01-02", keys: difference });
  });

  test("what is wrong with that record is shown in it", () => {
    const cwd = folderOf({ ...one, "old/then.fitted.mullion": record.replace("gate", "gaet") });
    const { status, out } = mullion(["sheet", "yard.mullion", "--from", "old/then.fitted.mullion"], { cwd });
    expect(status).toBe(1);
    expect(out).toMatch(
      /^old\/then\.fitted\.mullion:1:8 {2}error {2}.*fitted-unknown-keypad\n {2}1 \| fitted gaet 2026-01-02 \{\n {4}\| {8}\^\^\^\^\n/,
    );
  });

  test("factory: as if the keypad were new", () => {
    const { keypads } = json(folderOf({ ...one, "yard.fitted.mullion": record }), "--from", "factory");
    expect({ from: keypads[0].from, keys: keys(keypads) }).toEqual({
      from: "factory",
      keys: ["31 [new installer code] [new installer code] OK", "7 1 1 4829 OK", "7 1 2 5590 OK"],
    });
  });

  test("reset, where the model has none, is no sheet but a reason; status 1", () => {
    const { status, out } = mullion(["sheet", "yard.mullion", "--from", "reset"], { cwd: folderOf(one) });
    expect({ status, out }).toEqual({
      status: 1,
      out: 'gate "Lane gate": no sheet: model tiny has no reset that wipes everything; plan from what is fitted\n',
    });
  });

  test("a file that is not there", () => {
    expect(mullion(["sheet", "yard.mullion", "--from", "then"], { cwd: folderOf(one) }).err).toBe("mullion: no such file: then\n");
  });
});
