/** A small sealed site for tests, and what opens it. */
import { cpSync, mkdirSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import type { How, Ran } from "../cli/support/mullion.ts";
import { folderOf, model, mullion, root } from "../cli/support/mullion.ts";

/** The keypads' half: no code in it. */
export const yard = `use "tiny.mullion"
use "people.mullion.age"

site "Reed Yard"

keypad gate "Lane gate" : tiny {
  installer code own.gate

  relay 1 "Foot gate" {
    1 u1
    2 u2
  }
}
`;

export const people = `// Who has which code.
holder own "Our own codes" code gate 6044
holder u1 "Unit 1, pénique" code 4829
holder u2 "Unit 2" code 5590
`;

export const codes = /4829|5590|6044|7103/;

/** Identities that anybody may have: no file outside of these tests is sealed for them. */
export const identity = "AGE-SECRET-KEY-1CN6GHZDMNVC3749TUMH5A0VWL2FDE4RSYAWF9Q27EHLYYVK7EY8SATJWV2";
export const recipient = "age1aypdpmujc6x3hw3chszcyglsjxhm2m6vkqqu2pjesvmd97us2fxqfsrq0g";

export interface Yard {
  readonly cwd: string;
  readonly run: (words: readonly string[], how?: How) => Ran;
  /** With the identity that the yard is sealed for. */
  readonly open: (words: readonly string[], how?: How) => Ran;
  readonly read: (name: string) => string;
  readonly bytes: (name: string) => Buffer;
}

/** The site with its people sealed by the command line itself. @param files besides, or in place of what there is */
export function sealedYard(files: Readonly<Record<string, string>> = {}): Yard {
  const made = yardOf({
    "tiny.mullion": model,
    "yard.mullion": yard,
    "people.mullion": people,
    "people.recipients": `${recipient}\n`,
    ...files,
  });
  made.run(["seal", "people.mullion", "--remove"]);
  return made;
}

export function yardOf(files: Readonly<Record<string, string>>): Yard {
  const keys = folderOf({ "identity.txt": `# A test key.\n${identity}\n` });
  const cwd = folderOf(files);
  const env = { MULLION_IDENTITY: undefined };
  return {
    cwd,
    run: (words, how) => mullion(words, { cwd, env, ...how }),
    open: (words, how) => mullion(words, { cwd, env: { MULLION_IDENTITY: join(keys, "identity.txt") }, ...how }),
    read: name => readFileSync(join(cwd, name), "utf8"),
    bytes: name => readFileSync(join(cwd, name)),
  };
}

/** A copy of the sealed sample with the models that it uses, without its identity. */
export function sampleYard(cwd = folderOf()): string {
  const samples = join(root, "samples");
  cpSync(join(samples, "models"), join(cwd, "models"), { recursive: true });
  mkdirSync(join(cwd, "saltings-yard"));
  for (const name of readdirSync(join(samples, "saltings-yard")))
    if (name !== "test-identity.txt") cpSync(join(samples, "saltings-yard", name), join(cwd, "saltings-yard", name));
  return cwd;
}

export const sampleIdentity = join(root, "samples/saltings-yard/test-identity.txt");
