/** Merge conflict markers: one problem for each conflict, the first side is read, the other is not. */
import { describe, expect, it } from "vitest";
import { parse } from "../../grammar/parse.ts";

function checkConflicts(text: string, names: readonly string[], problems: readonly string[]): void {
  const parsed = parse(text);
  const read = parsed.tree.declarations.map(declaration => ("name" in declaration ? declaration.name?.text : undefined));
  expect(read).toEqual(names);
  expect(parsed.problems.map(({ code, start, message }) => `${code} at ${text.slice(start, start + 7)}: ${message}`)).toEqual(problems);
}

const one = (sign: string) => `merge-conflict at ${sign.repeat(7)}: a merge conflict: the first side is read, the other is not`;
const alone = (sign: string) => `merge-conflict at ${sign.repeat(7)}: a merge conflict marker without the rest of its conflict`;

describe("a conflict", () => {
  it("of two sides", () => {
    checkConflicts(
      'holder a "A"\n<<<<<<< ours\nholder b "B"\n=======\nholder c "C"\n>>>>>>> theirs\nholder d "D"\n',
      ["a", "b", "d"],
      [one("<")],
    );
  });

  it("with what both sides come from", () => {
    checkConflicts('<<<<<<< ours\nholder b "B"\n||||||| base\nholder o "O"\n=======\nholder c "C"\n>>>>>>> theirs\n', ["b"], [one("<")]);
  });

  it("after another, with carriage returns", () => {
    const side = (name: string) => `<<<<<<< ours\r\nholder ${name} "A"\r\n=======\r\nholder x "X"\r\n>>>>>>> theirs\r\n`;
    checkConflicts(side("a") + side("b"), ["a", "b"], [one("<"), one("<")]);
  });

  it("inside a block, places kept", () => {
    const text = 'keypad g "x" : m {\n  relay 1 {\n<<<<<<< ours\n    01 u1\n=======\n    01 u2\n>>>>>>> theirs\n    02 u3\n  }\n}\n';
    const { tree, problems } = parse(text);
    expect(problems).toHaveLength(1);
    const [keypad] = tree.declarations;
    const relay = keypad?.kind === "keypad" ? keypad.facts[0] : undefined;
    expect(relay?.kind === "relay" && relay.entries.map(({ start, end }) => text.slice(start, end))).toEqual(["01 u1", "02 u3"]);
    expect(problems[0]?.related).toEqual([
      { start: text.indexOf("======="), end: text.indexOf("=======") + 7, message: "the side that is not read" },
    ]);
  });

  it("without its beginning or its end", () => {
    checkConflicts('holder a "A"\n=======\nholder b "B"\n>>>>>>> theirs\nholder c "C"', ["a", "c"], [one("=")]);
    checkConflicts('<<<<<<< ours\nholder a "A"\n', ["a"], [alone("<")]);
    checkConflicts('holder a "A"\n>>>>>>> theirs\nholder b "B"', ["a", "b"], [one(">")]);
  });
});

describe("no conflict", () => {
  it("are such signs anywhere but at the beginning of a line, or more or fewer of them", () => {
    checkConflicts('// <<<<<<< ours\nholder a "======= >>>>>>>"\n  // =======\n', ["a"], []);
    expect(parse("<<<<<<\n").problems.map(problem => problem.code)).toEqual(["syntax"]);
    expect(parse("========\n").problems.map(problem => problem.code)).toEqual(["syntax"]);
  });
});
