/** What is read without the argument library is read as the library reads it. */
import fc from "fast-check";
import { expect, test, vi } from "vitest";
import type { Command } from "../../../server/cli/command.ts";
import { commands } from "../../../server/cli/commands/index.ts";
import { runProgram } from "../../../server/cli/program.ts";
import type { Surroundings } from "../../../server/cli/surroundings.ts";
import { plainWords } from "../../../server/cli/words.ts";
import { words as split } from "./support/mullion.ts";

// Put in by the build.
vi.hoisted(() => Object.assign(globalThis, { MULLION_VERSION: "0.0.0" }));

const silent: Surroundings = {
  cwd: "/",
  out: () => {},
  err: () => {},
  colour: false,
  readInput: () => "",
  typedLines: undefined,
  today: () => "2027-03-31",
};

/** What reaches a command by way of the library: its name, operands and options; undefined where none is run. */
async function byLibrary(words: readonly string[]): Promise<readonly unknown[] | undefined> {
  let reached: readonly unknown[] | undefined;
  const told = commands.map(
    (command): Command => ({
      ...command,
      run: async (operands, options) => {
        reached = [command.name, operands, { ...options }];
        return 0;
      },
    }),
  );
  await runProgram(words, told, silent);
  return reached;
}

function plainly(words: readonly string[]): readonly unknown[] | undefined {
  const plain = plainWords(words, commands);
  return plain && [plain.command.name, plain.operands, plain.options];
}

test.each(commands.flatMap(({ examples }) => examples.map(({ line }) => line)))("mullion %s", async line => {
  expect(plainly(split(line))).toEqual(await byLibrary(split(line)));
  expect(plainly(split(line)) === undefined).toBe(line.endsWith(" --help"));
});

test.each(["", "chek", "--help", "check --help", "check --fromat json", "check --format yaml", "check --format=json", "sheet", "fmt -- a"])(
  "`%s` is left to the library",
  line => {
    expect(plainly(split(line))).toBeUndefined();
  },
);

test("any words of the command line", async () => {
  const flags = commands.flatMap(({ options }) => options.flatMap(each => each.flags.split(/[ ,]+/).filter(part => part.startsWith("-"))));
  const word = fc.constantFrom(
    ...new Set(flags),
    "a.mullion",
    "b",
    "-",
    "--",
    "-x",
    "",
    "json",
    "html",
    "2027-03-31",
    "2027-02-30",
    "1-6,8",
    "-5",
  );
  let read = 0;
  await fc.assert(
    fc.asyncProperty(
      fc.constantFrom(...commands),
      fc.array(word, { maxLength: 6 }),
      fc.boolean(),
      async ({ name, options }, others, own) => {
        // Mostly options of its own, or hardly any line would be taken.
        const known = options.flatMap(({ flags: each }) => each.split(/[ ,]+/));
        const words = [name, ...(own ? others.filter(each => !each.startsWith("--") || known.includes(each)) : others)];
        const plain = plainly(words);
        if (plain === undefined) return;
        read++;
        expect(plain).toEqual(await byLibrary(words));
      },
    ),
    { numRuns: 1500 },
  );
  expect(read).toBeGreaterThan(200);
});
