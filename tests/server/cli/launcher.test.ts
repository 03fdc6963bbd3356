/** What is kept of one start for the next: only ever a gain of time. */
import { readdirSync, readFileSync, statSync, truncateSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { bundle, clashing, folderOf, model, mullion, root } from "./support/mullion.ts";

const checkIn = (caches: string, cwd: string) => mullion(["check"], { cwd, env: { XDG_CACHE_HOME: caches, LOCALAPPDATA: caches } });
const kept = (caches: string) => readdirSync(join(caches, "mullion/compiled"));
const site = { "tiny.mullion": model, "yard.mullion": clashing };

test("each command keeps one file, which later starts leave as it is", () => {
  const [caches, cwd] = [folderOf(), folderOf(site)];
  const first = checkIn(caches, cwd);
  expect(first).toMatchObject({ status: 1, err: "", out: expect.stringContaining("slot-clash") });
  expect(kept(caches)).toEqual([expect.stringMatching(new RegExp(`^check-${process.version}-${process.arch}-[0-9a-f]{16}$`))]);
  const file = join(caches, "mullion/compiled", kept(caches)[0] ?? "");
  const before = statSync(file);
  expect(checkIn(caches, cwd)).toEqual(first);
  expect(statSync(file)).toMatchObject({ ino: before.ino, mtimeMs: before.mtimeMs, size: before.size });
  expect(mullion(["--version"], { env: { XDG_CACHE_HOME: caches, LOCALAPPDATA: caches } }).status).toBe(0);
  expect(kept(caches).map(name => name.split("-")[0])).toEqual(["check", "other"]);
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

test("what an earlier version kept is cleared away, and nothing of others", () => {
  const old = `check-${process.version}-${process.arch}-0000000000000000`;
  const caches = folderOf({ [`mullion/compiled/${old}`]: "old", "mullion/compiled/check-v1.0.0-x64-0000000000000000": "another Node's" });
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

test("the body is in ASCII, and says which one it is", () => {
  const body = readFileSync(join(root, "out/cli.js"), "utf8");
  expect(body).toMatch(/^\/\/[0-9a-f]{16}\n[\0-\x7f]*$/);
  expect(statSync(bundle).size).toBeLessThan(4000);
});
