import { spawn } from "node:child_process";
import { existsSync, readdirSync, readFileSync, utimesSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { parse } from "../../../grammar/parse.ts";
import { bundle, folderOf, model, mullion } from "./support/mullion.ts";

const keypads = (count: number) =>
  Array.from(
    { length: count },
    (_, i) => `keypad k${i} "Keypad ${i}" : tiny {
  installer code 6044
  relay 1 "Door ${i}" {
    1 u1
    2 u2
    3 u3
  }
}
`,
  ).join("\n");
const site = (count: number) => `use "model.mullion"
site "Alder yard"
holder u1 "Unit 1" code 4829
holder u2 "Unit 2" code 5591
holder u3 "Unit 3" code 7305

${keypads(count)}`;

const yard = (count = 1) => folderOf({ "yard.mullion": site(count), "model.mullion": model });
const sheetOf = (cwd: string, keypad: string, ...more: string[]) =>
  JSON.parse(mullion(["sheet", "yard.mullion", "--keypad", keypad, "--format", "json", "-o", "-", ...more], { cwd }).out).keypads[0];
const recordOf = (cwd: string) => readFileSync(join(cwd, "yard.fitted.mullion"), "utf8");

test("everything typed: nothing is left, and the record reads as a register with names", () => {
  const cwd = yard();
  const { number, counts } = sheetOf(cwd, "k0");
  expect(counts.entries).toBe(4);
  const { out, err, status } = mullion(["record", "yard.mullion", "--keypad", "k0", "--sheet", number, "--all", "--date", "2026-11-20"], {
    cwd,
  });
  expect([out, err, status]).toEqual([
    'k0 "Keypad 0": 4 entries recorded, nothing is left to type\nwritten to yard.fitted.mullion\n',
    "",
    0,
  ]);
  expect(recordOf(cwd)).toMatch(/^fitted k0 2026-11-20 \{\n {2}model tiny\n[\s\S]*1 code 4829 +\/\/ u1\n/);
  expect(mullion(["waiting"], { cwd }).out).toBe("Nothing waits to be typed at 1 keypad.\n");
  expect(mullion(["check", "--strict"], { cwd }).status).toBe(0);
});

test("some typed, one doubtful: the next sheet starts there", () => {
  const cwd = yard();
  const sheet = sheetOf(cwd, "k0");
  const slots = sheet.sessions
    .flatMap((session: { entries: { n: number; slot?: string }[] }) => session.entries)
    .filter((entry: { slot?: string }) => entry.slot);
  const [first, second] = slots.map((entry: { n: number }) => entry.n);
  const { out, status } = mullion(
    ["record", "yard.mullion", "--keypad", "k0", "--sheet", sheet.number, "--done", `1-${first}`, "--doubt", String(second)],
    { cwd },
  );
  expect([status, out.split("\n")[0]]).toEqual([0, `k0 "Keypad 0": ${second} entries recorded, 3 left to type`]);
  expect(recordOf(cwd)).toMatch(/2 unknown/);
  // Where twins are refused, a place that nobody knows is emptied before anything is put anywhere.
  expect(sheetOf(cwd, "k0").sessions[0].entries.map((entry: { slot: string }) => entry.slot)).toEqual(["2", "2", "3"]);
});

describe("nothing is written", () => {
  test.each([
    [["--all"], "name the sheet that was typed from"],
    [["--sheet", "AAA-AAA", "--all"], "text and record now give another sheet than AAA-AAA"],
    [["--sheet", "AAA-AAA"], "say what was taken"],
    [["--sheet", "AAA-AAA", "--all", "--done", "1"], "either --all or --done"],
  ])("%j", (words, says) => {
    const cwd = yard();
    const { err, status } = mullion(["record", "yard.mullion", "--keypad", "k0", ...words], { cwd });
    expect([status, err.includes(says), existsSync(join(cwd, "yard.fitted.mullion"))]).toEqual([2, true, false]);
  });

  test("where the text has changed since the sheet", () => {
    const cwd = yard();
    const { number } = sheetOf(cwd, "k0");
    const changed = folderOf({ "yard.mullion": site(1).replace("    3 u3\n", ""), "model.mullion": model });
    const { err, status } = mullion(["record", "yard.mullion", "--keypad", "k0", "--sheet", number, "--all"], { cwd: changed });
    expect([status, err.includes("another sheet")]).toEqual([2, true]);
  });

  test("where an entry that is not on the sheet is named, and no code is said", () => {
    const cwd = yard();
    const { number } = sheetOf(cwd, "k0");
    const { err, status } = mullion(["record", "yard.mullion", "--keypad", "k0", "--sheet", number, "--done", "99"], { cwd });
    expect([status, /4829|5591|7305|6044/.test(err), existsSync(join(cwd, "yard.fitted.mullion"))]).toEqual([2, false, false]);
  });
});

test("a keypad that was swapped is recorded from factory", () => {
  const cwd = yard();
  const first = sheetOf(cwd, "k0");
  mullion(["record", "yard.mullion", "--keypad", "k0", "--sheet", first.number, "--all"], { cwd });
  const { number, counts } = sheetOf(cwd, "k0", "--from", "factory");
  expect(counts.entries).toBe(4);
  const { status, out } = mullion(["record", "yard.mullion", "--keypad", "k0", "--sheet", number, "--all", "--replaced"], { cwd });
  expect([status, out.includes("4 entries recorded")]).toEqual([0, true]);
});

test("a sheet that starts from elsewhere, recorded in two goes: it is said that the first record gives way", () => {
  const cwd = yard();
  const { number } = sheetOf(cwd, "k0", "--from", "factory");
  const done = (entries: string) =>
    mullion(
      ["record", "yard.mullion", "--keypad", "k0", "--sheet", number, "--done", entries, "--from", "factory", "--date", "2026-11-20"],
      {
        cwd,
      },
    );
  expect(done("1")).toMatchObject({ status: 0, err: "" });
  expect(done("1,2")).toMatchObject({
    status: 0,
    err: "mullion: k0: the record of 2026-11-20 gave way to what the sheet starts from; what was recorded since is named again with these entries, or is in it no more\n",
  });
  const next = sheetOf(cwd, "k0");
  expect(
    mullion(["record", "yard.mullion", "--keypad", "k0", "--sheet", next.number, "--all", "--date", "2026-11-20"], { cwd }),
  ).toMatchObject({ status: 0, err: "" });
});

test("several keypads in one go", () => {
  const cwd = yard(3);
  const numbers = ["k0", "k1", "k2"].map(id => sheetOf(cwd, id).number);
  const words = ["k0", "k1"].flatMap((id, i) => ["--keypad", id, "--sheet", numbers[i] as string]);
  expect(mullion(["record", "yard.mullion", ...words, "--all"], { cwd }).status).toBe(0);
  const parsed = parse(recordOf(cwd));
  expect([parsed.problems, parsed.tree.declarations.map(({ kind }) => kind)]).toEqual([[], ["fitted", "fitted"]]);
});

/** Starts a run and does not wait for it. */
function started(cwd: string, words: readonly string[]) {
  const child = spawn(process.execPath, [bundle, ...words], { cwd, stdio: "ignore" });
  return { child, ended: new Promise<number | null>(resolve => child.on("exit", resolve)) };
}

test.each([
  ["", undefined],
  [" and one of them sweeps up after a run that was killed", "4194305"],
  [" and one of them sweeps up after a run that was killed before it had written its number", ""],
])("runs at the same time lose nothing of each other%s", async (_, left) => {
  const count = 10;
  const cwd = yard(count);
  const runs = Array.from({ length: count }, (_, i) => [
    "record",
    "yard.mullion",
    "--keypad",
    `k${i}`,
    "--sheet",
    sheetOf(cwd, `k${i}`).number,
    "--all",
  ]);
  if (left !== undefined) {
    const lock = join(cwd, "yard.fitted.mullion.lock");
    writeFileSync(lock, left);
    utimesSync(lock, 0, 0);
  }
  const ends = await Promise.all(runs.map(words => started(cwd, words).ended));
  expect(ends).toEqual(Array.from({ length: count }, () => 0));
  const { tree, problems } = parse(recordOf(cwd));
  expect([problems, tree.declarations.length]).toEqual([[], count]);
  expect(readdirSync(cwd).filter(name => name.includes("lock") || name.startsWith("."))).toEqual([]);
});

test("killed at thirty moments: the old record or the new one, and the next run goes on", async () => {
  const cwd = yard(2);
  const first = sheetOf(cwd, "k0").number;
  expect(mullion(["record", "yard.mullion", "--keypad", "k0", "--sheet", first, "--all"], { cwd }).status).toBe(0);
  const factory = sheetOf(cwd, "k1", "--from", "factory").number;
  const run = (day: string) => ["record", "yard.mullion", "--keypad", "k1", "--sheet", factory, "--all", "--replaced", "--date", day];
  const begun = Date.now();
  expect(mullion(run("2026-09-30"), { cwd }).status).toBe(0);
  const whole = Date.now() - begun;
  const ofDay = (day: string) => recordOf(cwd).replace(/fitted k1 \S+/, `fitted k1 ${day}`);
  for (let kill = 1; kill <= 30; kill++) {
    const day = `2026-10-${String(kill).padStart(2, "0")}`;
    const old = recordOf(cwd);
    const newer = ofDay(day);
    const { child, ended } = started(cwd, run(day));
    // Most moments are near the end, where it is written.
    setTimeout(() => child.kill("SIGKILL"), whole * (0.3 + kill * 0.03));
    await ended;
    expect([old, newer]).toContain(recordOf(cwd));
  }
  // The next run sweeps up what a killed one left.
  expect(mullion(run("2026-11-01"), { cwd }).status).toBe(0);
  expect(parse(recordOf(cwd)).tree.declarations.length).toBe(2);
  expect(recordOf(cwd)).toContain("fitted k1 2026-11-01");
  expect(readdirSync(cwd).sort()).toEqual(["model.mullion", "yard.fitted.mullion", "yard.mullion"]);
});

describe("waiting", () => {
  test("in every form, without a code", () => {
    const cwd = yard(2);
    const text = mullion(["waiting"], { cwd }).out;
    expect(text.split("\n").filter(line => line.startsWith("Alder yard"))).toHaveLength(2);
    expect(text).toMatch(/8 entries at 2 of 2 keypads, about 2 min/);
    const { keypads: rows } = JSON.parse(mullion(["waiting", "--format", "json"], { cwd }).out);
    expect(rows[0]).toEqual({
      file: "yard.mullion",
      site: "Alder yard",
      keypad: "k0",
      label: "Keypad 0",
      entries: 4,
      minutes: 1,
      bring: [],
    });
    const csv = mullion(["waiting", "--format", "csv"], { cwd }).out;
    expect(csv.split("\r\n")[0]).toBe('\ufeff"site","keypad","record","to type","minutes","bring"');
    expect(/4829|5591|7305|6044/.test(text + csv + JSON.stringify(rows))).toBe(false);
  });

  test("the sum counts no keypad whose sheet is held back", () => {
    const cwd = folderOf({ "yard.mullion": site(2).replace("2 u2", "1 u2"), "model.mullion": model });
    expect(mullion(["waiting"], { cwd }).out).toMatch(/4 entries at 1 of 2 keypads, about 1 min \(.*\); 1 has no sheet\n$/);
  });

  test("a keypad with an error says why it has no sheet", () => {
    const cwd = folderOf({ "yard.mullion": site(1).replace("2 u2", "1 u2"), "model.mullion": model });
    expect(mullion(["waiting"], { cwd }).out).toContain("no sheet: an error holds its sheet back");
  });
});
