/**
 * A bad day for the record: killed at any moment while it is written or sealed, on a disk that is full, by two runs at once. Afterwards
 * there is the old file or the new one, whole and readable, and the next run leaves nothing of the last one behind.
 */
import { deepEqual, equal, ok } from "node:assert/strict";
import { execFileSync, spawn, spawnSync } from "node:child_process";
import { cpSync, existsSync, mkdtempSync, readdirSync, readFileSync, realpathSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { parse } from "../../../grammar/parse.ts";
import type { Attempt, Part } from "../part.ts";
import type { Random } from "../random.ts";
import { model, people, site } from "./yard.ts";

const root = join(import.meta.dirname, "../../..");
const program = join(root, "out/mullion.js");

/** A yard whose keypad `k0` is recorded and `k1` is not, and what belongs to it. Made once. */
interface Template {
  readonly folder: string;
  /** Numbers of the sheets from factory, by keypad. */
  readonly sheets: readonly string[];
  readonly identity: string;
  /** Milliseconds that a run takes here and now. */
  readonly takes: number;
}

let template: Template | undefined;

export const kills: Part = {
  name: "kills",
  counted: "runs that were killed, starved or crowded",
  fixed: 4,
  short: { fixed: 4, random: 0 },
  begin: () => {
    // The tests have built it already.
    if (process.env.VITEST === undefined) execFileSync(process.execPath, [join(root, ".ci/build.mjs"), "launcher", "cli", "age"]);
    template = made();
  },
  async attempt(one: Attempt) {
    const { folder, ...rest } = template as Template;
    const cwd = temporary();
    const kind = one.fixed ?? one.random.below(8);
    const trial = kind === 1 ? fullDisk : kind === 2 ? together : kind % 2 === 0 ? killedRecord : killedSeal;
    try {
      cpSync(folder, cwd, { recursive: true });
      await trial({ cwd, random: one.random, folder, ...rest });
    } finally {
      one.keep(`${trial.name}\n${readdirSync(cwd).join("\n")}\n`);
      rmSync(cwd, { recursive: true, force: true });
    }
  },
  end: () => {
    if (template) rmSync(template.folder, { recursive: true, force: true });
    template = undefined;
  },
};

interface Trial extends Template {
  readonly cwd: string;
  readonly random: Random;
}

function made(): Template {
  const folder = temporary();
  const files = { "model.mullion": model, "yard.mullion": site, "people.mullion": people };
  for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, name), text);
  equal(mullion(folder, "keys", "new", "-o", "identity.txt").status, 0);
  const recipient = /age1\S+/.exec(read(folder, "identity.txt"))?.[0] ?? "";
  writeFileSync(join(folder, "people.recipients"), `${recipient}\n`);
  const sheets = ["k0", "k1"].map(
    id =>
      JSON.parse(mullion(folder, "sheet", "yard.mullion", "--keypad", id, "--from", "factory", "--format", "json", "-o", "-").out)
        .keypads[0].number,
  );
  const begun = performance.now();
  equal(mullion(folder, ...record(sheets, 0, "2026-01-01")).status, 0);
  return { folder, sheets, identity: "identity.txt", takes: performance.now() - begun };
}

/** Killed while it writes; a later run goes on, and sweeps up. */
async function killedRecord({ cwd, random, sheets, takes }: Trial): Promise<void> {
  const old = read(cwd, "yard.fitted.mullion");
  await killed(cwd, record(sheets, 1, "2026-10-01"), takes, random);
  const after = read(cwd, "yard.fitted.mullion");
  ok(after === old || keypadsIn(after).join() === "k0,k1", "the old record or the new one");
  equal(mullion(cwd, ...record(sheets, 1, "2026-11-01")).status, 0);
  deepEqual(keypadsIn(read(cwd, "yard.fitted.mullion")), ["k0", "k1"]);
  nothingLeft(cwd, []);
}

/** Killed while it seals: the plain text is there, or the sealed one opens. */
async function killedSeal({ cwd, random, takes, identity }: Trial): Promise<void> {
  const remove = random.oneIn(2) ? ["--remove"] : [];
  await killed(cwd, ["seal", "people.mullion", ...remove], takes, random);
  const sealed = existsSync(join(cwd, "people.mullion.age"));
  const plain = existsSync(join(cwd, "people.mullion"));
  ok(plain || (sealed && remove.length > 0), "the text is there, plain or sealed");
  if (plain) equal(read(cwd, "people.mullion"), people);
  if (sealed) equal(mullion(cwd, "unseal", "people.mullion.age", "--identity", identity).out, people);
  if (plain) equal(mullion(cwd, "seal", "people.mullion", "--remove").status, 0);
  equal(mullion(cwd, "unseal", "people.mullion.age", "--identity", identity).out, people);
  ok(!existsSync(join(cwd, "people.mullion")));
  // Where the run was killed after all was done there is nothing for a next run to do, nor to sweep up.
  nothingLeft(cwd, plain ? [] : readdirSync(cwd).filter(name => name.startsWith(".people.mullion.names")));
}

/** No room: nothing is written, the old record stays, and it says so. A file-size limit stands in for the full disk. */
function fullDisk({ cwd, sheets }: Trial): void {
  const old = read(cwd, "yard.fitted.mullion");
  const words = record(sheets, 1, "2026-10-01")
    .map(word => `'${word}'`)
    .join(" ");
  const ran = spawnSync("bash", ["-c", `ulimit -f 0; trap '' XFSZ; exec '${process.execPath}' '${program}' ${words}`], {
    cwd,
    encoding: "utf8",
  });
  equal(ran.status, 2);
  ok(/^mullion: cannot write (?:beside )?yard\.fitted\.mullion: /.test(ran.stderr), "it says that it cannot write");
  equal(read(cwd, "yard.fitted.mullion"), old);
  nothingLeft(cwd, []);
}

/** Two runs at once lose nothing of each other. */
async function together({ cwd, sheets }: Trial): Promise<void> {
  const runs = [0, 1].map(keypad => started(cwd, record(sheets, keypad, "2026-10-01")).ended);
  deepEqual(await Promise.all(runs), [0, 0]);
  const written = read(cwd, "yard.fitted.mullion");
  deepEqual([...keypadsIn(written)].sort(), ["k0", "k1"]);
  equal(written.match(/2026-10-01/g)?.length, 2);
  nothingLeft(cwd, []);
}

function record(sheets: readonly string[], keypad: number, day: string): readonly string[] {
  return ["record", "yard.mullion", "--keypad", `k${keypad}`, "--sheet", sheets[keypad] ?? "", "--all", "--replaced", "--date", day];
}

async function killed(cwd: string, words: readonly string[], takes: number, random: Random): Promise<void> {
  const { child, ended } = started(cwd, words);
  // Most moments are near the end, where it is written.
  const timer = setTimeout(() => child.kill("SIGKILL"), takes * (0.3 + random.below(900) / 1000));
  await ended;
  clearTimeout(timer);
}

function keypadsIn(text: string): readonly string[] {
  const { tree, problems } = parse(text);
  deepEqual(problems, []);
  return tree.declarations.map(one => (one.kind === "fitted" ? (one.keypad?.text ?? "") : one.kind));
}

/** No lock, and no file that was being written. */
function nothingLeft(cwd: string, but: readonly string[]): void {
  const left = readdirSync(cwd).filter(name => (name.startsWith(".") || /\.(?:lock|sweep)$/.test(name)) && !but.includes(name));
  deepEqual(left, []);
}

function started(cwd: string, words: readonly string[]) {
  const child = spawn(process.execPath, [program, ...words], { cwd, stdio: "ignore" });
  return { child, ended: new Promise<number | null>(resolve => child.on("exit", resolve)) };
}

function mullion(cwd: string, ...words: readonly string[]): { readonly status: number | null; readonly out: string } {
  const ran = spawnSync(process.execPath, [program, ...words], { cwd, encoding: "utf8" });
  return { status: ran.status, out: ran.stdout };
}

function read(folder: string, name: string): string {
  return readFileSync(join(folder, name), "utf8");
}

function temporary(): string {
  return realpathSync(mkdtempSync(join(tmpdir(), "mullion fuzz ")));
}
