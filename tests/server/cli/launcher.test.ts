/** What is kept of one start for the next: only ever a gain of time. */
import { chownSync, readdirSync, readFileSync, statSync, truncateSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { bundle, clashing, folderOf, model, mullion, root } from "./support/mullion.ts";

const checkIn = (caches: string, cwd: string) => mullion(["check"], { cwd, env: { XDG_CACHE_HOME: caches, LOCALAPPDATA: caches } });
const kept = (caches: string) => readdirSync(join(caches, "mullion/compiled"));
const site = { "tiny.mullion": model, "yard.mullion": clashing };

test("each command keeps what its first four runs compiled, which later starts leave as it is", () => {
  const [caches, cwd] = [folderOf(), folderOf(site)];
  const named = (count: number) => [
    expect.stringMatching(new RegExp(`^check-cli-${process.version}-${process.arch}-[0-9a-f]{16}-${count}$`)),
  ];
  const about = () => statSync(join(caches, "mullion/compiled", kept(caches)[0] ?? ""));
  // A comment alone takes little of the program.
  mullion(["check"], { cwd: folderOf({ "empty.mullion": "// nothing yet\n" }), env: { XDG_CACHE_HOME: caches, LOCALAPPDATA: caches } });
  const little = about().size;
  const first = checkIn(caches, cwd);
  expect(first).toMatchObject({ status: 1, err: "", out: expect.stringContaining("slot-clash") });
  expect(kept(caches)).toEqual(named(2));
  expect(about().size).toBeGreaterThan(little * 1.2);
  for (const count of [3, 4, 4]) {
    expect(checkIn(caches, cwd)).toEqual(first);
    expect(kept(caches)).toEqual(named(count));
  }
  const before = about();
  expect(checkIn(caches, cwd)).toEqual(first);
  expect(about()).toMatchObject({ ino: before.ino, mtimeMs: before.mtimeMs, size: before.size });
});

test("what is loaded on demand is kept, too, and nothing of a run that was refused", () => {
  const caches = folderOf();
  const env = { XDG_CACHE_HOME: caches, LOCALAPPDATA: caches };
  expect(mullion(["explain", "no-such-finding"], { env }).status).toBe(2);
  expect(readdirSync(caches)).toEqual([]);
  expect(mullion(["explain", "slot-clash"], { env }).status).toBe(0);
  expect(mullion(["--version"], { env }).status).toBe(0);
  expect(kept(caches).map(name => name.replace(/-v.*/, ""))).toEqual(["explain-cli-more", "explain-cli", "other-cli"]);
});

test.each(["empty", "cut off", "something else"])("a kept file that is %s is put right", how => {
  const [caches, cwd] = [folderOf(), folderOf(site)];
  const first = checkIn(caches, cwd);
  const file = join(caches, "mullion/compiled", kept(caches)[0] ?? "");
  const whole = statSync(file).size;
  if (how === "something else") writeFileSync(file, Buffer.alloc(whole, "no code of ours "));
  else truncateSync(file, how === "empty" ? 0 : whole / 2);
  const damaged = readFileSync(file);
  expect(checkIn(caches, cwd)).toEqual(first);
  expect(readFileSync(file).equals(damaged)).toBe(false);
  expect(checkIn(caches, cwd)).toEqual(first);
});

test.runIf(process.geteuid?.() === 0)("what another user kept is not taken", () => {
  const [caches, cwd] = [folderOf(), folderOf(site)];
  for (let turn = 0; turn < 3; turn++) checkIn(caches, cwd);
  const file = join(caches, "mullion/compiled", kept(caches)[0] ?? "");
  chownSync(file, 65534, 65534);
  expect(checkIn(caches, cwd).status).toBe(1);
  expect(kept(caches)).toEqual([expect.stringMatching(/-1$/)]);
});

test("what an earlier version kept is cleared away, and nothing of others", () => {
  const old = `check-cli-${process.version}-${process.arch}-0000000000000000-4`;
  const caches = folderOf({
    [`mullion/compiled/${old}`]: "old",
    "mullion/compiled/check-cli-v1.0.0-x64-0000000000000000-4": "another Node's",
  });
  checkIn(caches, folderOf(site));
  expect(kept(caches)).toHaveLength(2);
  expect(kept(caches)).not.toContain(old);
});

test.each(["there is none", "it cannot be made", "it is a file"])("without a cache folder, as %s, all goes on", how => {
  const cwd = folderOf({ ...site, file: "" });
  const caches = { "there is none": "", "it cannot be made": "/dev/null/caches", "it is a file": join(cwd, "file") }[how] ?? "";
  const { status, err } = mullion(["check"], { cwd, env: { XDG_CACHE_HOME: caches, HOME: caches || "/dev/null", LOCALAPPDATA: caches } });
  expect({ status, err }).toEqual({ status: 1, err: "" });
  expect(readdirSync(cwd).sort()).toEqual(["file", "tiny.mullion", "yard.mullion"]);
});

test("both files are in ASCII, and say which they are", () => {
  for (const file of ["out/cli.js", "out/cli-more.js"])
    expect(readFileSync(join(root, file), "utf8")).toMatch(/^\/\/[0-9a-f]{16}\n[\0-\x7f]*$/);
  expect(statSync(bundle).size).toBeLessThan(4000);
});
