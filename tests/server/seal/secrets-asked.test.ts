/** Passphrases and typed identities: asked for without showing them, each slip with its own words. No terminal is needed to try it. */
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { PassThrough } from "node:stream";
import { Encrypter } from "age-encryption";
import { describe, expect, test, vi } from "vitest";
import { commands } from "../../../server/cli/commands/index.ts";
import { failure } from "../../../server/cli/failure.ts";
import { runCommand } from "../../../server/cli/run-command.ts";
import type { Surroundings } from "../../../server/cli/surroundings.ts";
import { plainWords } from "../../../server/cli/words.ts";
import { askOn } from "../../../server/seal/terminal.ts";
import { folderOf, model as tiny } from "../cli/support/mullion.ts";
import { identity, people, recipient, yard } from "./sealed-yard.ts";

// The build says it; what runs without one is told here.
vi.stubGlobal("MULLION_VERSION", "0.0.0");

/** Runs a command in this process; what is asked is answered in turn. */
async function runAsked(cwd: string, words: readonly string[], answers?: readonly (string | undefined)[], named?: string) {
  const left = [...(answers ?? [])];
  const asked: string[] = [];
  let out = "";
  let err = "";
  const status = await run(words, {
    cwd,
    out: text => {
      out += typeof text === "string" ? text : new TextDecoder().decode(text);
    },
    err: text => {
      err += text;
    },
    colour: false,
    readInput: () => "",
    typedLines: undefined,
    today: () => "2026-11-25",
    identity: named,
    ...(answers && {
      askHidden: async (question: string) => {
        asked.push(question);
        return left.shift();
      },
    }),
  }).catch((error: unknown) => {
    err += `${failure(error)}\n`;
    return 2;
  });
  return { status, out, err, asked };
}

/** As the command line runs them; what the words mean is not what is tried here. */
async function run([name = "", ...words]: readonly string[], around: Surroundings): Promise<number> {
  const at = words.indexOf("--identity");
  const identityGiven = at < 0 ? undefined : words[at + 1];
  const plain = plainWords([name, ...(at < 0 ? words : [...words.slice(0, at), ...words.slice(at + 2)])], commands);
  if (!plain) throw new Error(`${name} takes other words`);
  const options = identityGiven === undefined ? plain.options : { ...plain.options, identity: identityGiven };
  return runCommand(plain.command, plain.operands, options, around);
}

const passphrase = "red shank probing mud";

/** Sealed with a passphrase that is quickly tried: a real one takes a second each time. */
async function quicklySealed(text: string): Promise<Uint8Array> {
  const encrypter = new Encrypter();
  encrypter.setPassphrase(passphrase);
  encrypter.setScryptWorkFactor(8);
  return encrypter.encrypt(text);
}

describe("a file under a passphrase", async () => {
  const sealed = await quicklySealed(people);
  const path = "people.mullion.age";

  test("opens with it", async () => {
    const ran = await runAsked(folderOf({ [path]: sealed }), ["unseal", path], [passphrase]);
    expect(ran).toEqual({ status: 0, out: people, err: "", asked: ["Passphrase of people.mullion.age: "] });
  });

  test("says that another is wrong, and gives out nothing", async () => {
    const ran = await runAsked(folderOf({ [path]: sealed }), ["unseal", path], ["red shank"]);
    expect(ran).toMatchObject({ status: 2, out: "", err: "cannot open people.mullion.age: the passphrase is wrong\n" });
  });

  test.each([
    ["there is no terminal", undefined, "opens with a passphrase, and there is no terminal to ask on"],
    ["nothing is typed", [""], "opens with a passphrase, and nothing was typed"],
    ["the question is broken off", [undefined], "or the question was broken off"],
  ])("says so where %s", async (_what, answers, said) => {
    const ran = await runAsked(folderOf({ [path]: sealed }), ["unseal", path], answers);
    expect({ status: ran.status, out: ran.out }).toEqual({ status: 2, out: "" });
    expect(ran.err).toContain(said);
  });

  test("is told from one that opens with an identity, where a site is read", async () => {
    const cwd = folderOf({ "yard.mullion": yard, "identity.txt": identity, [path]: sealed });
    const given = await runAsked(cwd, ["who", "yard.mullion", "--identity", "identity.txt"]);
    expect(given.err).toBe("people.mullion.age is sealed, and it opens with a passphrase, not with an identity (--identity -)\n");
    const wrong = await runAsked(cwd, ["who", "yard.mullion", "--identity", "-"], ["blue shank"]);
    expect(wrong).toMatchObject({ status: 2, out: "", err: "people.mullion.age is sealed, and the passphrase is wrong\n" });
  });
});

describe("sealing with a passphrase", () => {
  test("asks twice, and writes nothing where the two differ", async () => {
    const cwd = folderOf({ "people.mullion": people });
    const ran = await runAsked(cwd, ["seal", "people.mullion", "--passphrase"], ["dunlin", "dunlim"]);
    expect(ran).toMatchObject({ status: 2, out: "", err: "the two passphrases are not the same; nothing is written\n" });
    expect(existsSync(join(cwd, "people.mullion.age"))).toBe(false);
  });

  test("takes no list of recipients", async () => {
    const cwd = folderOf({ "people.mullion": people });
    const ran = await runAsked(cwd, ["seal", "people.mullion", "--passphrase", "--remove"], ["dunlin", "dunlin"]);
    expect(ran).toMatchObject({ status: 0, err: "", asked: ["New passphrase for people.mullion.age: ", "The same again: "] });
    expect(readFileSync(join(cwd, "people.names"), "utf8")).toMatch(/^sealed \d+ bytes for passphrase$/m);
    expect(readFileSync(join(cwd, "people.mullion.age"), "latin1")).toMatch(/^age-encryption\.org\/v1\n-> scrypt \S+ 18\n/);
  }, 60_000);

  test("what is changed later is sealed with the one that opened it", async () => {
    const cwd = folderOf({ "people.mullion.age": await quicklySealed(people), "yard.mullion": yard, "tiny.mullion": tiny });
    const issued = await runAsked(cwd, ["issue", "yard.mullion", "--holder", "u1", "--write", "--identity", "-"], [passphrase]);
    expect(issued).toMatchObject({ status: 0, asked: ["Identity or passphrase: "] });
    const opened = await runAsked(cwd, ["unseal", "people.mullion.age"], [passphrase]);
    expect(opened.out).toContain(`code ${issued.out.trim()}`);
  }, 60_000);
});

describe("an identity", () => {
  test("may be typed", async () => {
    const cwd = folderOf({ "people.mullion": people, "people.recipients": recipient });
    await runAsked(cwd, ["seal", "people.mullion"]);
    expect(await runAsked(cwd, ["unseal", "people.mullion.age"], [` ${identity.toLowerCase()} `])).toMatchObject({
      status: 0,
      out: people,
    });
    const slip = await runAsked(cwd, ["unseal", "people.mullion.age"], [identity.slice(0, -3)]);
    expect(slip).toMatchObject({ status: 2, out: "" });
    expect(slip.err).toMatch(/^what was typed holds something that is no identity/);
    expect(slip.err).not.toContain(identity.slice(20, 40));
  });

  test("under a passphrase of its own opens with that, once for all files", async () => {
    const file = "protected.txt";
    const cwd = folderOf({
      [file]: await quicklySealed(`# mine\n${identity}\n`),
      "yard.mullion": yard,
      "people.mullion": people,
      "people.recipients": recipient,
      "tiny.mullion": tiny,
    });
    await runAsked(cwd, ["seal", "people.mullion", "--remove"]);
    const good = await runAsked(cwd, ["check", "yard.mullion"], [passphrase], file);
    expect(good).toMatchObject({ status: 0, out: "3 files checked: nothing found\n", err: "", asked: [`Passphrase of ${file}: `] });
    const wrong = await runAsked(cwd, ["unseal", "people.mullion.age", "--identity", file], ["dunlin"]);
    expect(wrong).toMatchObject({ status: 2, out: "", err: `the passphrase of ${file} is wrong\n` });
  });

  test("that the environment names and that cannot be had is no reason to check nothing", async () => {
    const cwd = folderOf({ "yard.mullion": yard, "people.mullion": people, "people.recipients": recipient, "tiny.mullion": tiny });
    await runAsked(cwd, ["seal", "people.mullion", "--remove"]);
    const checked = await runAsked(cwd, ["check", "yard.mullion"], undefined, "gone.txt");
    expect(checked).toMatchObject({ status: 0, err: "" });
    expect(checked.out).toContain("cannot read the identity file gone.txt");
    expect(await runAsked(cwd, ["check", "yard.mullion", "--identity", "gone.txt"])).toMatchObject({ status: 2, out: "" });
    // A site without a sealed file never looks for it.
    const plain = folderOf({ "people.mullion": people });
    expect((await runAsked(plain, ["check", "."], undefined, "gone.txt")).out).not.toContain("gone.txt");
  });

  test("is made under a passphrase", async () => {
    const cwd = folderOf();
    const made = await runAsked(cwd, ["keys", "new", "-o", "me.txt", "--passphrase"], ["knot and knot", "knot and knot"]);
    expect(made.status).toBe(0);
    expect(readFileSync(join(cwd, "me.txt"), "utf8")).toMatch(/^-----BEGIN AGE ENCRYPTED FILE-----\n/);
    expect(made.out).toMatch(/^age1\w+\n$/);
  }, 60_000);
});

describe("a terminal", () => {
  /** Types some keys, in pieces, and says what was shown and how the terminal was set. */
  async function typed(...pieces: readonly (string | Buffer)[]) {
    const keys = new PassThrough();
    const says = new PassThrough();
    const shows: boolean[] = [];
    const answer = askOn({ keys, says, shows: isShown => shows.push(isShown), close: () => undefined }, "Passphrase: ");
    for (const piece of pieces) keys.write(piece);
    if (!pieces.some(piece => /[\r\n\u0003\u0004]/.test(piece.toString()))) keys.end();
    return { answer: await answer, said: says.read()?.toString(), shows };
  }

  test("shows the question and nothing of the answer, and shows keys again afterwards", async () => {
    expect(await typed("dun", "lin\r")).toEqual({ answer: "dunlin", said: "Passphrase: \n", shows: [false, true] });
  });

  test.each([
    ["a key is taken back", ["dunlim\u007fn\n"], "dunlin"],
    ["the whole line is taken back", ["plover\u0015dunlin\r"], "dunlin"],
    ["a letter comes in pieces", [Buffer.from([0xc3]), Buffer.from([0xa9, 0x0d])], "é"],
    ["more is taken back than was typed", ["\b\b\bdunlin\r"], "dunlin"],
    ["nothing is typed", ["\r"], ""],
    ["it is broken off", ["dun\u0003"], undefined],
    ["it ends", ["dun"], undefined],
    ["it ends before anything is typed", ["\u0004"], undefined],
  ])("%s", async (_what, pieces, answer) => {
    expect((await typed(...pieces)).answer).toBe(answer);
  });
});
