/** Any file system: sites whose `use` leads to folders, devices, pipes, loops of links, nothing at all, and to files that change while they are read. */
import { deepEqual, equal, ok } from "node:assert/strict";
import type { ChildProcess } from "node:child_process";
import { execFileSync, spawn } from "node:child_process";
import { mkdirSync, mkdtempSync, realpathSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { mullionFilesUnder, shelf } from "../../../server/files.ts";
import { findingsOf } from "../../../shared/checks/run.ts";
import { loadSite } from "../../../shared/site/load.ts";
import { rootsOf } from "../../../shared/site/roots.ts";
import type { Attempt, Part } from "../part.ts";
import type { Random } from "../random.ts";
import { model, people, site } from "./yard.ts";

let changing: ChildProcess | undefined;
let changed = "";

export const files: Part = {
  name: "files",
  counted: "folders",
  fixed: 1,
  short: { fixed: 1, random: 40 },
  begin() {
    changed = join(temporary(), "changing.mullion");
    changing = keptChanging(changed);
  },
  attempt(one: Attempt) {
    const cwd = temporary();
    try {
      if (one.fixed === 0) ringOf(cwd, 10_000);
      else oddFolder(cwd, one);
    } finally {
      rmSync(cwd, { recursive: true, force: true });
    }
  },
  end() {
    changing?.kill("SIGKILL");
    rmSync(dirname(changed), { recursive: true, force: true });
  },
};

/** What a `use` may lead to: how it is made, and what is said of it where it cannot be read. */
interface Odd {
  readonly name: string;
  /** Undefined where it is nothing to complain of, or not always. */
  readonly said: RegExp | undefined;
  /** It may be read or not: both are right. */
  readonly either?: true;
  make(path: string, random: Random): void;
}

const odds: readonly Odd[] = [
  { name: "folder.mullion", said: /it is a folder/, make: path => void mkdirSync(path) },
  { name: "pipe.mullion", said: /it is a pipe/, make: path => void execFileSync("mkfifo", [path]) },
  { name: "zero.mullion", said: /it is a device/, make: path => symlinkSync("/dev/zero", path) },
  { name: "random.mullion", said: /it is a device/, make: path => symlinkSync("/dev/urandom", path) },
  { name: "memory.mullion", said: undefined, either: true, make: path => symlinkSync("/proc/self/maps", path) },
  { name: "loop.mullion", said: /lead round in a loop/, make: path => symlinkSync(path, path) },
  { name: "nothing.mullion", said: /a link to nothing/, make: path => symlinkSync(`${path}.not`, path) },
  { name: "socket.mullion", said: /it is a socket/, make: path => void createServer().listen(path).unref() },
  {
    name: "below/folder/loops.mullion",
    said: undefined,
    make: path => {
      mkdirSync(dirname(path), { recursive: true });
      symlinkSync("..", join(dirname(path), "up"));
      writeFileSync(path, "");
    },
  },
  {
    name: "bytes.mullion",
    said: /it is not UTF-8 text/,
    make: (path, random) => writeFileSync(path, Buffer.concat([Buffer.from([0xff]), random.bytes(200)])),
  },
  { name: "wide.mullion", said: /it is UTF-16 text/, make: path => writeFileSync(path, Buffer.from("\ufeffsite", "utf16le")) },
  { name: "huge.mullion", said: /files up to 16 MB/, make: path => writeFileSync(path, Buffer.alloc(17 * 1024 * 1024, 32)) },
  { name: "empty.mullion", said: undefined, make: path => writeFileSync(path, "") },
];

/** What can stand in a text and leads nowhere. */
const nowhere = [
  "",
  " ",
  "/",
  "..",
  ".",
  "no\u0000thing.mullion",
  "\ud800.mullion",
  `${"long".repeat(80)}.mullion`,
  "/proc/self/mem",
  "C:\\yard.mullion",
  "file:///etc/hostname",
  "model.mullion/x.mullion",
  "~/x.mullion",
  "../".repeat(50),
  "https://example.org/x.mullion",
];

function oddFolder(cwd: string, { random, keep }: Attempt): void {
  writeFileSync(join(cwd, "model.mullion"), model);
  writeFileSync(join(cwd, "people.mullion"), people);
  const some = random.shuffled(odds).slice(0, random.between(0, 4));
  const strange = random.shuffled(nowhere).slice(0, random.between(0, 3));
  for (const odd of some) odd.make(join(cwd, odd.name), random);
  const others = [...strange, ...(random.oneIn(3) ? [changed, "../../../../../../etc/hostname"] : [])];
  const uses = random.shuffled([...some.map(({ name }) => name), ...others]).map(path => `use "${path}"\n`);
  const text = random.oneIn(2) ? uses.join("") + site : site + uses.join("");
  writeFileSync(join(cwd, "yard.mullion"), text);
  keep(() => text);

  const found = mullionFilesUnder(cwd);
  const begun = performance.now();
  const read = shelf();
  for (const file of found.files) read.open(file);
  const roots = rootsOf(found.files.flatMap(file => read.open(file) ?? []));
  ok(roots.includes(join(cwd, "yard.mullion")));
  const loaded = loadSite(join(cwd, "yard.mullion"), read.open);
  const findings = [...findingsOf(loaded, { today: "2026-11-25" })];
  // A pipe would be waited for, a device read, for ever.
  ok(performance.now() - begun < 5_000, "nothing is waited for");

  for (const { name, said, either } of some) {
    const problems = read.problems.filter(({ file }) => file === join(cwd, name));
    if (!either) equal(problems.length, said ? 1 : 0, name);
    if (said) ok(said.test(problems[0]?.reason ?? ""), `${name}: ${problems[0]?.reason}`);
    const use = loaded.uses.find(({ node }) => node.path?.text === name);
    if (said)
      ok(
        use && !use.found && findings.some(({ code, start }) => code === "use-missing" && start >= use.node.start && start <= use.node.end),
        name,
      );
  }
  // The yard itself is checked whatever else there is.
  deepEqual(
    [...loaded.keypads.keys()].filter(id => id === "k0" || id === "k1"),
    ["k0", "k1"],
  );
  for (const { file, start, end } of findings) {
    const length = loaded.files.find(one => one.file === file)?.text.length ?? 0;
    ok(start >= 0 && start <= end && end <= length, "a finding stands inside its file");
  }
}

/** So many files, each of which uses the next, and the last the first. */
function ringOf(cwd: string, count: number): void {
  for (let i = 0; i < count; i++)
    writeFileSync(join(cwd, `f${i}.mullion`), `use "f${(i + 1) % count}.mullion"\nholder h${i} "Holder ${i}"\n`);
  const read = shelf();
  const { files: found } = mullionFilesUnder(cwd);
  const roots = rootsOf(found.flatMap(file => read.open(file) ?? []));
  equal(roots.length, 1);
  const loaded = loadSite(roots[0] ?? "", read.open);
  equal(loaded.holders.size, count);
  deepEqual(
    [...findingsOf(loaded, { today: "2026-11-25" })].filter(({ severity }) => severity === "error").map(({ code }) => code),
    ["use-cycle"],
  );
}

/** A file that another program writes all the time: cut short, grown, removed and made again. */
function keptChanging(path: string): ChildProcess {
  const program = `const fs = require("node:fs"); const [path] = process.argv.slice(1); const text = ${JSON.stringify(people)};
    for (let i = 0; ; i++) { fs.writeFileSync(path, text.repeat(1 + (i % 50))); fs.truncateSync(path, i % 90); fs.appendFileSync(path, "\\u00e9 ".repeat(i % 400)); if (i % 7 === 0) fs.rmSync(path); Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 1); }`;
  return spawn(process.execPath, ["-e", program, path], { stdio: "ignore" });
}

function temporary(): string {
  return realpathSync(mkdtempSync(join(tmpdir(), "mullion fuzz ")));
}
