/**
 * No code of a sealed site comes out where nobody unlocked it: every command is run over the sealed sample, with Node's own tracing
 * on, and all that was said, written or left in the folders for temporary files is searched for every code.
 */

import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, onTestFinished, test } from "vitest";
import { parse } from "../../../grammar/parse.ts";
import { commands } from "../../../server/cli/commands/index.ts";
import { openFile } from "../../../server/seal/age.ts";
import { keysAtHand } from "../../../server/seal/identities.ts";
import { standing } from "../../support/samples.ts";
import { mullion, root } from "../cli/support/mullion.ts";
import { commitAll } from "../cli/support/repository.ts";
import { sampleIdentity, sampleYard } from "./sealed-yard.ts";

const site = "saltings-yard/saltings-yard.mullion";
const sealed = "saltings-yard/people.mullion.age";
const record = "saltings-yard/saltings-yard.fitted.mullion.age";

/** Every code of the sample: of its people, and of what its keypad is known to hold. */
const secrets = await codesIn(join(root, "samples"));

async function codesIn(cwd: string): Promise<readonly string[]> {
  const keys = await keysAtHand({ cwd, identity: sampleIdentity });
  const codes = new Set<string>();
  for (const name of [sealed, record]) {
    const opened = await openFile(new Uint8Array(readFileSync(join(cwd, name))), keys);
    const text = "bytes" in opened ? new TextDecoder().decode(opened.bytes) : "";
    for (const declaration of parse(text).tree.declarations) {
      if (declaration.kind !== "holder" && declaration.kind !== "fitted") continue;
      const block = text.slice(declaration.start, declaration.end);
      for (const [, code = ""] of block.matchAll(/\bcode (?:[a-z]+ )?(\d+)/g)) codes.add(code);
    }
  }
  return [...codes];
}

/** Words for each command; a command that is added has to say how it is tried. `OUT` is a folder outside of the site. */
const lines: Readonly<Record<string, readonly (readonly string[])[]>> = {
  check: [
    ["check", "."],
    ["check", site, "--format", "json"],
    ["check", sealed],
    ["check", ".", "--format", "sarif"],
    ["check", "--staged"],
  ],
  sheet: [
    ["sheet", site],
    ["sheet", site, "--format", "json", "-o", "-", "--show-installer"],
    ["sheet", site, "--from", record],
    ["sheet", site, "--from", "factory"],
  ],
  record: [["record", site, "--keypad", "slip", "--sheet", "AAA-AAA", "--all"]],
  waiting: [
    ["waiting", "."],
    ["waiting", ".", "--format", "json"],
  ],
  import: [
    ["import", "table.csv", "-o", site],
    ["import", sealed, "-o", "other.mullion"],
  ],
  fmt: [
    ["fmt", "."],
    ["fmt", sealed],
    ["fmt", "--check", sealed, record],
  ],
  replay: [
    ["replay", site, "--keys", "OK"],
    ["replay", "models/dunlin-3.mullion", "--from", record, "--keypad", "slip", "--keys", "OK"],
  ],
  explain: [["explain", "sealed-shut"]],
  who: [
    ["who", site],
    ["who", site, "--at", "HEAD"],
    ["who", site, "--format", "json"],
  ],
  doors: [["doors", site]],
  issue: [
    ["issue", site, "--holder", "berth1"],
    ["issue", site, "--holder", "berth1", "--write"],
  ],
  leave: [["leave", site, "--holder", "berth1"]],
  review: [
    ["review", site, site],
    ["review", ".", "--since", "HEAD"],
  ],
  register: [["register", site]],
  slips: [["slips", site]],
  visit: [["visit", site]],
  handover: [["handover", site]],
  envelope: [["envelope", site, "--keypad", "slip"]],
  seal: [
    ["seal", sealed],
    ["seal", site, "--dry-run"],
  ],
  unseal: [
    ["unseal", sealed],
    ["unseal", record, "-o", "OUT/plain.mullion"],
  ],
  reseal: [["reseal"], ["reseal", site]],
  split: [
    ["split", site],
    ["split", site, "--dry-run"],
  ],
  keys: [
    ["keys", "show", sealed],
    ["keys", "new", "-o", "OUT/new.txt"],
  ],
  lsp: [["lsp"]],
};

test("every command is tried", () => {
  expect(Object.keys(lines).sort()).toEqual(commands.map(({ name }) => name).sort());
});

test("there are codes to look for, and a search finds them where they were asked for", () => {
  expect(secrets.length).toBeGreaterThan(6);
  const { out } = mullion(["unseal", sealed, "--identity", sampleIdentity], { cwd: sampleYard() });
  expect(standing(out, secrets)).toEqual(secrets);
  const sheet = mullion(
    ["sheet", site, "--from", "factory", "--show-installer", "--format", "txt", "-o", "-", "--identity", sampleIdentity],
    { cwd: sampleYard() },
  );
  expect(standing(sheet.out, secrets)).toEqual(secrets);
});

interface World {
  readonly cwd: string;
  readonly outside: string;
  readonly env: Readonly<Record<string, string | undefined>>;
}

function world(identity: string | undefined): World {
  const outside = mkdtempSync(join(tmpdir(), "outside-"));
  const cwd = sampleYard(mkdtempSync(join(tmpdir(), "sealed-")));
  for (const folder of ["home", "temporary", "cache", "OUT"]) mkdirSync(join(outside, folder));
  commitAll(cwd);
  const env = {
    MULLION_IDENTITY: identity,
    HOME: join(outside, "home"),
    TMPDIR: join(outside, "temporary"),
    XDG_CACHE_HOME: join(outside, "cache"),
    // What Node itself can tell of its work goes to standard error.
    NODE_DEBUG: "fs,child_process,stream,tty",
  };
  return { cwd, outside, env };
}

function removeWorld(done: World | undefined): void {
  for (const folder of [done?.cwd, done?.outside]) if (folder !== undefined) rmSync(folder, { recursive: true, force: true });
}

/** Names of files that hold a code, or are named after one. */
function filesTelling(folder: string): readonly string[] {
  return readdirSync(folder, { recursive: true, encoding: "utf8" }).filter(name => {
    const path = join(folder, name);
    return standing(name, secrets).length > 0 || (statSync(path).isFile() && standing(readFileSync(path, "latin1"), secrets).length > 0);
  });
}

/** An identity of somebody else's. */
const strangers = mkdtempSync(join(tmpdir(), "stranger-"));
const stranger = join(strangers, "identity.txt");
mullion(["keys", "new", "-o", stranger]);
afterAll(() => rmSync(strangers, { recursive: true }));

describe.each([
  ["without an identity", undefined],
  ["with an identity that is not among the recipients", stranger],
])("%s", (_what, identity) => {
  let here: World | undefined;
  beforeAll(() => {
    here = world(identity);
    return () => removeWorld(here);
  });

  test.each(Object.entries(lines))("%s", (name, all) => {
    if (!here) throw new Error("there is a world to run in");
    const { cwd, outside, env } = here;
    for (const line of all) {
      const words = line.map(word => word.replace("OUT", join(outside, "OUT")));
      // Without an identity these would ask on the terminal of whoever runs the tests.
      const asks = identity === undefined && ["unseal", "reseal"].includes(name);
      const { status, out, err } = mullion(asks ? [...words, "--identity", join(outside, "none.txt")] : words, { cwd, env });
      expect([0, 1, 2], words.join(" ")).toContain(status);
      expect(err, words.join(" ")).not.toContain("a fault of Mullion");
      expect(standing(out, secrets), words.join(" ")).toEqual([]);
      expect(standing(err, secrets), words.join(" ")).toEqual([]);
    }
  });

  test("and nothing that holds a code is left in any folder", () => {
    expect([here?.cwd, here?.outside].flatMap(folder => (folder === undefined ? ["no folder"] : filesTelling(folder)))).toEqual([]);
  });
});

test("with the identity no code comes out of what does not show codes, and none is left behind", () => {
  const { cwd, outside, env } = world(sampleIdentity);
  onTestFinished(() => removeWorld({ cwd, outside, env }));
  const quiet = ["check", "waiting", "who", "doors", "review", "register", "visit", "handover", "reseal", "fmt"];
  for (const line of quiet.flatMap(name => lines[name] ?? [])) {
    const { out, err } = mullion(line, { cwd, env });
    expect(standing(out, secrets), line.join(" ")).toEqual([]);
    expect(standing(err, secrets), line.join(" ")).toEqual([]);
  }
  mullion(["unseal", sealed], { cwd, env });
  mullion(["sheet", site, "--format", "txt", "-o", "-"], { cwd, env });
  mullion(["split", site, "--dry-run"], { cwd, env });
  expect([cwd, outside].flatMap(filesTelling)).toEqual([]);
  expect(readdirSync(join(outside, "OUT"))).toEqual([]);
});
