/**
 * Files of another program that writes the same format: age 1.1.1 of Debian made what is in `tests/outside/age/`, for the test
 * identity there and with a passphrase. Where the program is installed, the way back is tried too.
 */
import { execFileSync, spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { openFile, recipientOf, sealText } from "../../server/seal/age.ts";
import { isArmored } from "../../server/seal/beginnings.ts";
import { keysAtHand } from "../../server/seal/identities.ts";
import { isUnderPassphrase } from "../../server/seal/open.ts";

const folder = join(import.meta.dirname, "age");
const read = (name: string) => new Uint8Array(readFileSync(join(folder, name)));
const text = readFileSync(join(folder, "text.mullion"), "utf8");
const passphrase = "red shank probing mud";
const keys = await keysAtHand({ cwd: folder, identity: "test-identity.txt" });

test.each(["x25519.mullion.age", "armored.mullion.age", "two.mullion.age"])("%s opens, byte for byte", async name => {
  const file = read(name);
  expect([isArmored(file), isUnderPassphrase(file)]).toEqual([name.startsWith("armored"), false]);
  const opened = await openFile(file, keys);
  expect("bytes" in opened && Buffer.from(opened.bytes).toString("utf8")).toBe(text);
});

test("passphrase.mullion.age opens with its passphrase and no other", async () => {
  const file = read("passphrase.mullion.age");
  expect(isUnderPassphrase(file)).toBe(true);
  const opened = await openFile(file, { identities: keys.identities, passphrases: [passphrase] });
  expect("bytes" in opened && Buffer.from(opened.bytes).toString("utf8")).toBe(text);
  expect(await openFile(file, { identities: keys.identities, passphrases: [`${passphrase}!`] })).toEqual({ failed: "no match" });
});

test("an identity that was put under a passphrase there is an identity here", async () => {
  const protectedKeys = await keysAtHand({ cwd: folder, identity: "protected-identity.txt", askHidden: async () => passphrase });
  expect(protectedKeys).toEqual(keys);
});

const isInstalled = spawnSync("age", ["--version"]).status === 0;
const isTerminalThere = spawnSync("script", ["--version"]).status === 0;

test("what is sealed here for an identity opens there", async ({ skip }) => {
  skip(!isInstalled, "age is not installed here: the way back was not tried");
  const recipient = await recipientOf(keys.identities[0] ?? "");
  const sealed = await sealText(text, { recipients: [recipient ?? ""] });
  const opened = execFileSync("age", ["-d", "-i", join(folder, "test-identity.txt")], { input: sealed });
  expect(opened.toString("utf8")).toBe(text);
});

test("what is sealed here with a passphrase opens there", async ({ skip }) => {
  skip(!isInstalled || !isTerminalThere, "age, or a terminal to type into, is not installed here: the way back was not tried");
  const own = mkdtempSync(join(tmpdir(), "age-"));
  try {
    writeFileSync(join(own, "sealed.age"), await sealText(text, { passphrase }));
    // It asks on a terminal and nowhere else.
    spawnSync("script", ["-qec", "age -d -o opened sealed.age", "/dev/null"], { cwd: own, input: `${passphrase}\r`, timeout: 20_000 });
    expect(readFileSync(join(own, "opened"), "utf8")).toBe(text);
  } finally {
    rmSync(own, { recursive: true });
  }
}, 30_000);
