/** The key of a repository's sheet numbers: the same on every clone, and none where it would be known to those who must not try codes. */
import { mkdirSync, mkdtempSync, realpathSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { numbersOf, sheetKey } from "../../server/sheet-key.ts";
import type { Plan } from "../../shared/plan/plan.ts";
import { planFor } from "../../shared/plan/start.ts";
import { sheetNumbers } from "../../shared/sheet/number.ts";
import { model, record, siteOf, wharf } from "../shared/sheet/wharf.ts";
import { git } from "./cli/support/repository.ts";

let folder: string;
beforeEach(() => {
  folder = realpathSync(mkdtempSync(join(tmpdir(), "mullion-key-")));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

function repository(name: string, commits = 2): string {
  const where = join(folder, name);
  mkdirSync(where);
  git(where, "init", "-q");
  for (let n = 0; n < commits; n++) {
    writeFileSync(join(where, "site.mullion"), `// ${n}\n`);
    git(where, "add", ".");
    git(where, "commit", "-q", "-m", `text ${n}`);
  }
  return where;
}

const fileIn = (where: string, name = "site.mullion") => join(where, name);

describe("the key", () => {
  test("is the first commit's, and stays when the text goes on", () => {
    const where = repository("yard");
    const key = sheetKey([fileIn(where)]);
    expect(key).toBe(git(where, "rev-list", "--max-parents=0", "HEAD"));
    git(where, "commit", "-q", "--allow-empty", "-m", "more");
    expect(sheetKey([fileIn(where)])).toBe(key);
  });

  test("is the same on a clone, and none on a shallow one, which does not know its first commit", () => {
    const where = repository("yard");
    git(folder, "clone", "-q", where, "clone");
    git(folder, "clone", "-q", "--depth", "1", pathToFileURL(where).href, "shallow");
    expect(sheetKey([fileIn(join(folder, "clone"))])).toBe(sheetKey([fileIn(where)]));
    expect(sheetKey([fileIn(join(folder, "shallow"))])).toBe(undefined);
  });

  test("is what the configuration says, where it says something", () => {
    const where = repository("yard");
    git(where, "config", "mullion.sheetKey", "a key of ours");
    expect(sheetKey([fileIn(where)])).toBe("a key of ours");
    expect(sheetKey([fileIn(where), fileIn(where, "people.mullion.age")])).toBe("a key of ours");
  });

  test("is none outside a repository, before the first commit, and where a file is sealed", () => {
    expect(sheetKey([])).toBe(undefined);
    expect(sheetKey([fileIn(folder)])).toBe(undefined);
    expect(sheetKey([fileIn(repository("new", 0))])).toBe(undefined);
    expect(sheetKey([fileIn(repository("sealed")), "people.mullion.age"])).toBe(undefined);
  });
});

describe("the numbers that a sheet may carry", () => {
  const planned = (): Plan => {
    const site = siteOf(wharf + model + record);
    const keypad = site.keypads.get("gate");
    const plan = keypad && planFor(site, keypad);
    if (!plan || "cannot" in plan) throw new Error("the gate can be planned");
    return plan;
  };

  test("are those with the key and those without one", () => {
    const where = repository("yard");
    const plan = planned();
    const files = [fileIn(where)];
    expect(numbersOf("gate", plan, files)).toEqual([...sheetNumbers("gate", plan, sheetKey(files)), ...sheetNumbers("gate", plan)]);
    expect(sheetKey(files)).not.toBe(undefined);
    expect(numbersOf("gate", plan, [fileIn(folder)])).toEqual(sheetNumbers("gate", plan));
  });

  test("with the key they change with the installer code, which stands on no sheet", () => {
    const where = repository("yard");
    const plan = planned();
    const other: Plan = { ...plan, before: { ...plan.before, installer: "00000" } };
    const [keyed] = numbersOf("gate", plan, [fileIn(where)]);
    expect(numbersOf("gate", other, [fileIn(where)])).not.toContain(keyed);
  });
});
