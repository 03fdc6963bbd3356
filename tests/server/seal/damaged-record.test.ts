/** A record that is there and cannot be read is not taken for none: nothing is planned as if the keypad were new, and it is not written over. */
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { folderOf, model, mullion, site } from "../cli/support/mullion.ts";
import { sealedYard } from "./sealed-yard.ts";

const sheet = ["sheet", "yard.mullion", "--format", "json", "-o", "-"];
const recordAll = (number: string) => ["record", "yard.mullion", "--keypad", "gate", "--sheet", number, "--all"];

test("a sealed record that is damaged", () => {
  const { cwd, open } = sealedYard();
  const { number } = JSON.parse(open(sheet).out).keypads[0];
  expect(open(recordAll(number)).status).toBe(0);
  const path = join(cwd, "yard.fitted.mullion.age");
  const bytes = readFileSync(path);
  bytes[bytes.length - 5] = (bytes[bytes.length - 5] ?? 0) ^ 1;
  writeFileSync(path, bytes);

  const why = "cannot read yard.fitted.mullion.age: it is damaged: what was sealed in it is not whole\n";
  const { status, out, err } = open(sheet);
  expect([status, out]).toEqual([2, ""]);
  expect(err).toContain(
    'gate "Lane gate": no sheet: yard.fitted.mullion.age cannot be read: it is damaged: what was sealed in it is not whole; put back an earlier version of it, from git or a backup\n',
  );
  for (const words of [recordAll(number), ["who", "yard.mullion"], ["register", "yard.mullion"], ["visit", "yard.mullion"]])
    expect(open(words)).toEqual({ status: 2, out: "", err: `mullion: ${why}` });
  expect(readFileSync(path).equals(bytes)).toBe(true);
  const checked = open(["check", "yard.mullion"]);
  expect(checked.status).toBe(2);
  expect(checked.out).toContain("yard.fitted.mullion.age cannot be read");
});

test("people that are damaged are not called absent, and are known by name still", () => {
  const { cwd, open } = sealedYard();
  const path = join(cwd, "people.mullion.age");
  const bytes = readFileSync(path);
  bytes[bytes.length - 5] = (bytes[bytes.length - 5] ?? 0) ^ 1;
  writeFileSync(path, bytes);
  const { out } = open(["check", "yard.mullion"]);
  expect(out).toContain("people.mullion.age cannot be read: it is damaged");
  expect(out).not.toMatch(/there is no file|name-unknown/);
});

test("a plain record in another encoding", () => {
  const cwd = folderOf({ "tiny.mullion": model, "yard.mullion": site });
  const { number } = JSON.parse(mullion(sheet, { cwd }).out).keypads[0];
  const path = join(cwd, "yard.fitted.mullion");
  const wide = Buffer.from("\ufefffitted gate unknown\n", "utf16le");
  writeFileSync(path, wide);
  const { status, out, err } = mullion(sheet, { cwd });
  expect([status, out]).toEqual([2, ""]);
  expect(err).toContain("no sheet: yard.fitted.mullion cannot be read: it is UTF-16 text; save it as UTF-8");
  expect(mullion(recordAll(number), { cwd })).toEqual({
    status: 2,
    out: "",
    err: "mullion: cannot read yard.fitted.mullion: it is UTF-16 text; save it as UTF-8\n",
  });
  expect(readFileSync(path).equals(wide)).toBe(true);
  expect(mullion(["split", "yard.mullion", "--dry-run"], { cwd })).toMatchObject({ status: 2, out: "" });
});

test("a plain text under a sealed name is called what it is", () => {
  const { cwd, open } = sealedYard();
  writeFileSync(join(cwd, "people.mullion.age"), 'holder u1 "Unit 1"\n  tag "red dot"\n');
  expect(open(["unseal", "people.mullion.age"])).toEqual({
    status: 2,
    out: "",
    err: "mullion: cannot open people.mullion.age: it is no sealed file: it does not begin like one\n",
  });
});
