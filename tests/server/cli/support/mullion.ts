/** Runs the built command line in a folder of its own, as a person would. */
import type { SpawnSyncReturns } from "node:child_process";
import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, realpathSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { onTestFinished } from "vitest";

export const root = join(import.meta.dirname, "../../../..");
export const bundle = join(root, "out/mullion.js");

export interface Ran {
  readonly status: number | null;
  readonly out: string;
  readonly err: string;
}

export interface How {
  readonly cwd?: string;
  readonly input?: string;
  readonly env?: Readonly<Record<string, string | undefined>>;
}

/** @param words what stands behind `mullion` */
export function mullion(words: readonly string[], { cwd = root, input = "", env = {} }: How = {}): Ran {
  const { FORCE_COLOR: _force, NO_COLOR: _no, ...inherited } = process.env;
  const ran: SpawnSyncReturns<string> = spawnSync(process.execPath, [bundle, ...words], {
    cwd,
    input,
    env: { ...inherited, ...env },
    encoding: "utf8",
    timeout: 20_000,
  });
  return { status: ran.status, out: ran.stdout, err: ran.stderr };
}

/** A new folder with these files, removed after the test. */
export function folderOf(files: Readonly<Record<string, string | Uint8Array>> = {}): string {
  const folder = realpathSync(mkdtempSync(join(tmpdir(), "mullion test ")));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  for (const [name, content] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, name)), { recursive: true });
    writeFileSync(join(folder, name), content);
  }
  return folder;
}

/** A line of a command as a shell would split it; double and single quotes group. */
export function words(line: string): readonly string[] {
  return [...line.matchAll(/"([^"]*)"|'([^']*)'|(\S+)/g)].map(([, double, single, bare]) => double ?? single ?? bare ?? "");
}

/** A keypad model with one relay, slots 1 to 3, codes of four digits. */
export const model = `model tiny "One relay, three slots" {
  keys     0..9 OK C
  relays   1 = 1
  slots    1..3 per relay
  codes    4 digits
  rewrite  replaces
  twins    refused
  refused  shows "three beeps"
  cancel   C

  enter           OK {installer} OK                   shows "lamp on"
  leave           OK OK                               shows "lamp off"
  put code        7 {relay} {slot} {code} OK          shows "one beep"
  clear slot      9 {relay} {slot} OK                 shows "one beep"
  set installer   31 {code} {code} OK                 shows "two beeps"

  open code       {code}

  factory {
    installer code 2468
  }
}
`;

/** A site that has nothing wrong with it; its codes are `6044`, `4829` and `5590`. */
export const site = `use "tiny.mullion"

site "Reed Yard"

holder own "Our own codes" code gate 6044
holder u1 "Unit 1" code 4829
holder u2 "Unit 2" code 5590

keypad gate "Lane gate" : tiny {
  installer code own.gate

  relay 1 "Foot gate" {
    1 u1
    2 u2
  }
}
`;

/** The same with two entries in one slot. */
export const clashing = site.replace("2 u2", "1 u2");
