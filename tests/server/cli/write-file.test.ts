/** A file that is written is the old one or the new one, whatever happens in between. */
import { spawn, spawnSync } from "node:child_process";
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { ToolProblem } from "../../../server/tool-problem.ts";
import { writeFileWhole } from "../../../server/write-file.ts";
import { folderOf, root } from "./support/mullion.ts";

const program = `
import { writeFileWhole } from ${JSON.stringify(join(root, "server/write-file.ts"))};
const [path, letter] = process.argv.slice(-2);
for (;;) writeFileWhole(path, letter.repeat(3_000_000), path);
`;

test("killed at any moment, it leaves the old file or the new one, and the next run sweeps up", async () => {
  const cwd = folderOf({ "run.mts": program, "x.md": "a".repeat(3_000_000) });
  const path = join(cwd, "x.md");
  for (let turn = 0; turn < 12; turn++) {
    const letter = "bcd"[turn % 3] ?? "b";
    const child = spawn(
      process.execPath,
      ["--disable-warning=ExperimentalWarning", "--disable-warning=MODULE_TYPELESS_PACKAGE_JSON", join(cwd, "run.mts"), path, letter],
      { stdio: "inherit" },
    );
    await new Promise(done => setTimeout(done, 90 + turn * 7));
    child.kill("SIGKILL");
    await new Promise(done => child.once("exit", done));
    const text = readFileSync(path, "utf8");
    expect(text === text.charAt(0).repeat(3_000_000)).toBe(true);
  }
  writeFileWhole(path, "new", "x.md");
  expect(readdirSync(cwd).sort()).toEqual(["run.mts", "x.md"]);
  expect(readFileSync(path, "utf8")).toBe("new");
});

test("a file of another run that is at work is left alone", () => {
  const cwd = folderOf();
  const other = `.x.md.mullion-${process.ppid}-01234567`;
  writeFileSync(join(cwd, other), "half");
  writeFileWhole(join(cwd, "x.md"), "new", "x.md");
  expect(readdirSync(cwd).sort()).toEqual([other, "x.md"]);
});

test("a disk that is full leaves the old file and nothing else", () => {
  const cwd = folderOf({ "x.md": "old", "run.mts": program.replace("for (;;) ", "") });
  // A file-size limit stands in for the full disk.
  const ran = spawnSync(
    "bash",
    ["-c", `ulimit -f 100; trap '' XFSZ; exec "${process.execPath}" "${join(cwd, "run.mts")}" "${join(cwd, "x.md")}" b`],
    { encoding: "utf8" },
  );
  expect(ran.stderr).toContain("the file would be too large");
  expect(readFileSync(join(cwd, "x.md"), "utf8")).toBe("old");
  expect(readdirSync(cwd).sort()).toEqual(["run.mts", "x.md"]);
});

test("a folder in its place is refused", () => {
  const cwd = folderOf({ "x/y": "" });
  expect(() => writeFileWhole(join(cwd, "x"), "new", "x")).toThrow(new ToolProblem("cannot write x: it is a folder"));
});
