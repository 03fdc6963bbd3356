/** What a sheet starts from, and that what was typed from each such sheet can be recorded. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { folderOf, model, mullion, site } from "./support/mullion.ts";

const reset = `reset wipes everything "Bridge the pins"`;
const whole = model.replace("  factory {", `  ${reset}\n  clear all       70 OK\n\n  factory {`);
const now = site.replace("    2 u2\n", "    3 u2\n").replace("code 4829", "code 7305");
const yard = (more: Record<string, string> = {}) => folderOf({ "tiny.mullion": whole, "yard.mullion": now, ...more });

interface Entry {
  readonly operation: string;
  readonly slot?: string;
  readonly because?: string;
}
function sheetOf(cwd: string, ...more: readonly string[]) {
  const { status, out, err } = mullion(["sheet", "yard.mullion", "--format", "json", "-o", "-", ...more], { cwd });
  const [keypad] = status === 2 ? [] : JSON.parse(out || '{"keypads":[]}').keypads;
  const entries: readonly Entry[] = keypad?.sessions.flatMap((session: { entries: readonly Entry[] }) => session.entries) ?? [];
  return {
    status,
    err,
    from: keypad?.from,
    number: keypad?.number,
    typed: entries.map(({ operation, slot }) => (slot === undefined ? operation : `${operation} ${slot}`)),
  };
}
const recordAll = (cwd: string, number: string, ...more: readonly string[]) =>
  mullion(["record", "yard.mullion", "--keypad", "gate", "--sheet", number, "--all", "--date", "2026-11-20", ...more], { cwd });

describe("an earlier text, taken as typed", () => {
  test("only what changed since is typed, and the sheet says what it starts from", () => {
    const cwd = yard({ "old.mullion": site });
    expect(sheetOf(cwd, "--from", "old.mullion")).toMatchObject({
      status: 0,
      err: "",
      from: "text",
      typed: ["put code 1", "clear slot 2", "put code 3"],
    });
    const { out } = mullion(["sheet", "yard.mullion", "--from", "old.mullion", "--format", "txt", "-o", "-"], { cwd });
    expect(out).toMatch(/^ +from +what old\.mullion says, taken as typed$/m);
  });

  test("each withdrawn code is tried, and one that stays tells whether the text was ever typed", () => {
    const cwd = yard({ "old.mullion": site });
    const { out } = mullion(["sheet", "yard.mullion", "--from", "old.mullion", "--format", "json", "-o", "-"], { cwd });
    const [{ tries, before }] = JSON.parse(out).keypads;
    expect(tries.map(({ text }: { text: string }) => text)).toContain("The code that slot 1 of Foot gate held: nothing");
    expect(before.find(({ kind }: { kind: string }) => kind === "key").text).toContain("Unit 2's code: Foot gate must open");
  });

  test("the keypad is found by another name; one that it did not have starts from factory", () => {
    const cwd = yard({ "old.mullion": site.replace("keypad gate", "keypad front") });
    expect(sheetOf(cwd, "--from", "old.mullion").from).toBe("text");
    const other = yard({ "old.mullion": site.replace('keypad gate "Lane gate"', 'keypad barn "Barn"').replace("Foot gate", "Barn door") });
    expect(sheetOf(other, "--from", "old.mullion").from).toBe("factory");
  });

  test("what it wanted is not known where it has errors, or where another model hung there", () => {
    const cwd = yard({
      "old.mullion": site.replace("2 u2", "1 u2"),
      "other.mullion": site.replace(": tiny", ": big").replace("tiny.mullion", "big.mullion"),
      "big.mullion": whole.replace("model tiny", "model big"),
    });
    const said = (from: string) => mullion(["sheet", "yard.mullion", "--from", from, "--format", "txt", "-o", "-"], { cwd });
    expect([said("old.mullion").status, said("old.mullion").err]).toEqual([
      1,
      'gate "Lane gate": no sheet: old.mullion has errors, so that nobody can say what it had typed; mullion check old.mullion says which\n',
    ]);
    expect(said("other.mullion").err).toContain("in other.mullion this keypad is a big, the text says tiny; a keypad that was swapped");
    expect(said("none.mullion")).toMatchObject({ status: 2, err: "mullion: no such file: none.mullion\n" });
  });

  test("what was typed is recorded with the same start, and not without it", () => {
    const cwd = yard({ "old.mullion": site });
    const { number } = sheetOf(cwd, "--from", "old.mullion");
    expect(recordAll(cwd, number)).toMatchObject({ status: 2, err: expect.stringContaining("recorded with the same --from") });
    expect(recordAll(cwd, number, "--from", "old.mullion")).toMatchObject({ status: 0, err: "" });
    expect(sheetOf(cwd).typed).toEqual([]);
  });
});

describe("an earlier record", () => {
  test("is read in place of the one beside the site, and what was typed goes beside the site", () => {
    const record = "fitted gate 2026-11-01 {\n  model tiny\n  installer code 6044\n  relay 1 {\n    1 code 7305\n  }\n}\n";
    const cwd = yard({ "march.mullion": record });
    const { from, typed, number } = sheetOf(cwd, "--from", "march.mullion");
    expect([from, typed]).toEqual(["2026-11-01", ["put code 3"]]);
    expect(recordAll(cwd, number, "--from", "march.mullion")).toMatchObject({ status: 0, err: "" });
    expect(readFileSync(join(cwd, "march.mullion"), "utf8")).toBe(record);
    expect(readFileSync(join(cwd, "yard.fitted.mullion"), "utf8")).toContain("3 code 5590");
  });
});

test("a file that says of no keypad what it holds is no start: everything would be taken for new", () => {
  const cwd = yard({ "empty.mullion": "" });
  for (const file of ["empty.mullion", "tiny.mullion"])
    expect(mullion(["sheet", "yard.mullion", "--from", file], { cwd })).toMatchObject({
      status: 2,
      err: `mullion: ${file} says of no keypad what it holds\n`,
    });
});

describe("everything again", () => {
  const fitted = "fitted gate 2026-11-01 {\n  model tiny\n  installer code 6044\n  relay 1 {\n    1 code 4829\n    2 code 5590\n  }\n}\n";

  test("from a reset by hand, and its sheet is recorded", () => {
    const cwd = yard({ "yard.fitted.mullion": fitted });
    const { from, typed, number } = sheetOf(cwd, "--from", "reset");
    expect([from, typed]).toEqual(["reset", ["set installer", "put code 1", "put code 3"]]);
    expect(recordAll(cwd, number)).toMatchObject({ status: 0, err: "" });
    expect(sheetOf(cwd).typed).toEqual([]);
  });

  test("emptied by an entry, only where that is asked for; its sheet is recorded, and everyone is said to be shut out", () => {
    const cwd = yard({ "yard.fitted.mullion": fitted });
    expect(sheetOf(cwd).typed).toEqual(["put code 1", "clear slot 2", "put code 3"]);
    const { typed, number } = sheetOf(cwd, "--clear-all");
    expect(typed).toEqual(["clear all", "put code 1", "put code 3"]);
    expect(mullion(["sheet", "yard.mullion", "--clear-all", "--format", "txt", "-o", "-"], { cwd }).out).toContain(
      "Shut out meanwhile: everyone",
    );
    expect(recordAll(cwd, number)).toMatchObject({ status: 0, err: "" });
    expect(sheetOf(cwd).typed).toEqual([]);
  });

  test("a keypad without such an entry says so", () => {
    const cwd = folderOf({ "tiny.mullion": model, "yard.mullion": now });
    const { status, err } = mullion(["sheet", "yard.mullion", "--clear-all", "--format", "txt", "-o", "-"], { cwd });
    expect([status, err]).toEqual([
      1,
      'gate "Lane gate": no sheet: model tiny has no entry that empties the whole keypad; plan without it, or from a reset by hand\n',
    ]);
  });
});
