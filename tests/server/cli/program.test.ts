/** How the command line is called: version, help, wrong words, and what each ending looks like. */
import { spawnSync } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { commands } from "../../../server/cli/commands/index.ts";
import { failure } from "../../../server/cli/failure.ts";
import { ToolProblem } from "../../../server/tool-problem.ts";
import { BrokenInvariant } from "../../../shared/must.ts";
import { bundle, folderOf, model, mullion, root, site, words } from "./support/mullion.ts";

test("--version prints the version of package.json", () => {
  const { version } = JSON.parse(readFileSync(join(root, "package.json"), "utf8"));
  expect(mullion(["--version"])).toEqual({ status: 0, out: `mullion ${version}\n`, err: "" });
});

test("--help lists every command, on standard output", () => {
  const { status, out, err } = mullion(["--help"]);
  expect({ status, err }).toEqual({ status: 0, err: "" });
  for (const { name, about } of commands) {
    expect(out).toContain(`\n  ${name} `);
    expect(out.replace(/\s+/g, " ")).toContain(about);
  }
});

test("help is --help, and help of a command is that command's", () => {
  for (const line of [["help"], ["help", "--help"], ["help", "help"]]) expect(mullion(line), line.join(" ")).toEqual(mullion(["--help"]));
  expect(mullion(["help", "sheet"])).toEqual(mullion(["sheet", "--help"]));
});

test("without a word the help goes to standard error, and the status is 2", () => {
  const { status, out, err } = mullion([]);
  expect({ status, out }).toEqual({ status: 2, out: "" });
  expect(err).toMatch(/^Usage: mullion /);
});

describe.each(commands)("$name --help", ({ name, examples, options }) => {
  test("shows its examples and options, without loading what the command needs", () => {
    const { status, out, err } = mullion([name, "--help"]);
    expect({ status, err }).toEqual({ status: 0, err: "" });
    expect(examples.length).toBeGreaterThanOrEqual(1);
    for (const { line, shows } of examples) expect(out).toContain(`  mullion ${line}\n      ${shows}\n`);
    for (const { flags } of options) expect(out).toContain(flags);
  });

  // The server's own test talks to it; without an editor it has nobody to say goodbye to.
  test.each(name === "lsp" ? [] : examples)("its example works: mullion $line", ({ line }) => {
    const { status, out, err } = mullion(words(line));
    expect({ status, err }).toEqual({ status: 0, err: "" });
    if (name !== "fmt") expect(out).not.toBe("");
  });
});

test.each([
  ["an unknown option", ["check", "--frmat", "json"], "unknown option '--frmat'\n(Did you mean --format?)"],
  ["an unknown command", ["chek"], "unknown command 'chek'\n(Did you mean check?)"],
  ["help for an unknown command", ["chek", "--help"], "unknown command 'chek'\n(Did you mean check?)"],
  ["help of an unknown command", ["help", "chek"], "unknown command 'chek'\n(Did you mean check?)"],
  ["an unknown format", ["check", "--format", "jsn"], "(did you mean json?)."],
  ["a day that the calendar has not", ["check", "--today", "2027-02-29"], "It is a day of the calendar, written like 2027-03-31."],
  ["a missing argument", ["sheet"], "missing required argument 'file'"],
  ["an argument too many", ["explain", "slot-clash", "code-clash"], "too many arguments"],
  ["an unknown finding", ["explain", "slot-clsh"], "no finding is called slot-clsh (did you mean slot-clash?)"],
  ["a file that is not there", ["check", "no/such.mullion"], "no such file or folder: no/such.mullion"],
  ["the server without its one way to talk", ["lsp"], "mullion lsp --stdio"],
])("%s is wrong usage", (_what, line, said) => {
  const { status, out, err } = mullion(line);
  expect({ status, out }).toEqual({ status: 2, out: "" });
  expect(err).toMatch(/^mullion: /);
  expect(err).toContain(said);
});

test("a reader that goes away early is no fault", () => {
  const folder = folderOf({ "tiny.mullion": model, "yard.mullion": site + "holder u9 code code code\n".repeat(5000) });
  const ran = spawnSync("bash", ["-c", `"${process.execPath}" "${join(root, "out/mullion.js")}" check | head -n 1`], {
    cwd: folder,
    encoding: "utf8",
  });
  expect({ status: ran.status, err: ran.stderr }).toEqual({ status: 0, err: "" });
  expect(ran.stdout.split("\n")).toHaveLength(2);
});

test.runIf(existsSync("/dev/full"))("a full disk behind standard output is said", () => {
  const ran = spawnSync("bash", ["-c", `"${process.execPath}" "${bundle}" explain > /dev/full`], { encoding: "utf8" });
  expect({ status: ran.status, err: ran.stderr }).toEqual({
    status: 2,
    err: "mullion: cannot write to standard output: no space left on the device\n",
  });
});

test("what is long comes through a slow pipe whole", () => {
  const folder = folderOf({ "tiny.mullion": model, "yard.mullion": site + "holder u9 code code code\n".repeat(3000) });
  const ran = spawnSync("bash", ["-c", `"${process.execPath}" "${bundle}" check | (sleep 0.5; cat)`], {
    cwd: folder,
    encoding: "utf8",
    maxBuffer: 1e8,
  });
  expect(ran.stdout).toMatch(/\n2 files checked: \d+ errors\n$/);
  expect(ran.stderr).toBe("");
});

test.runIf(process.platform !== "win32")("a working folder that is gone is no fault", () => {
  const script = `mkdir gone; cd gone; rmdir ../gone; "${process.execPath}" "${bundle}" check "$OLDPWD/yard.mullion"`;
  const cwd = folderOf({ "tiny.mullion": model, "yard.mullion": site });
  const ran = spawnSync("bash", ["-c", script], { cwd, encoding: "utf8" });
  expect({ status: ran.status, out: ran.stdout, err: ran.stderr }).toEqual({ status: 0, out: "2 files checked: nothing found\n", err: "" });
});

test("the language server has to be there", () => {
  const command = ["mullion.js", "cli.js", "cli-more.js"].map(file => [file, readFileSync(join(root, "out", file))]);
  const apart = folderOf(Object.fromEntries(command));
  const ran = spawnSync(process.execPath, [join(apart, "mullion.js"), "lsp", "--stdio"], { encoding: "utf8" });
  expect({ status: ran.status, out: ran.stdout, err: ran.stderr }).toEqual({
    status: 2,
    out: "",
    err: "mullion: the language server is not there: server.js has to stand beside mullion.js\n",
  });
});

describe("what is said of an error", () => {
  test("a problem of the surroundings is its own words", () => {
    expect(failure(new ToolProblem("no such file: x"))).toBe("no such file: x");
  });

  test("an invariant is named, with places in the program", () => {
    const said = failure(new BrokenInvariant("every plan replays to its target"));
    expect(said).toMatch(/^this is a fault of Mullion, not of your text: every plan replays to its target\n\s+at /);
  });

  test("an unforeseen error's words are kept back, since they may quote a code", () => {
    expect(failure(new TypeError("Cannot read 4829 of undefined"))).not.toContain("4829");
    expect(failure("4829")).toBe("this is a fault of Mullion, not of your text: no reason was given");
  });
});
