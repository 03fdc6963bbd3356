import { expect, test } from "vitest";
import { parse } from "../../../grammar/parse.ts";
import type { Names } from "../../../shared/sealed/names.ts";
import { isSealed, namesFile, noNames, printNames, readNames, recipientsFile } from "../../../shared/sealed/names.ts";
import { mullion } from "../../support/fixture.ts";

const people = mullion`
  use "models/dunlin-3.mullion"
  holder u1 "Unit 1, pottery"
    code 48291
    tag 8061261 "blue fob"
  holder u3 "Unit 3, print room"
    until 2027-03-31
    code 73046
    code yard 11539
    tag bike 123,00334
    tag "red dot" lost
  holder cln "Cleaner"
  keypad gate "Lane gate" : dunlin-3 { installer code 60441 }
  supply cupboard "Riser cupboard" 13.8 V 3 A
  door "Foot gate" { lock strike 12 V 350 mA fail-secure }
`;

const names = [
  "# What people.mullion.age holds, by name only. Written when it was sealed; it holds no code.",
  "sealed 1423 bytes for 0123456789abcdef",
  'use "models/dunlin-3.mullion"',
  "holder u1: code, tag",
  "holder u3: code, code yard, tag bike, tag",
  "holder cln",
  "keypad gate",
  "supply cupboard",
  "door",
  "",
].join("\n");

test("a sealed file is told by its ending, and what stands beside it by its name", () => {
  expect(["a/people.mullion.age", "a/people.mullion", "a/x.age"].map(isSealed)).toEqual([true, false, true]);
  expect(namesFile("a/people.mullion.age")).toBe("a/people.names");
  expect(namesFile("a/t.fitted.mullion.age")).toBe("a/t.fitted.names");
  expect(recipientsFile("a/people.mullion.age")).toBe("a/people.recipients");
  expect(recipientsFile("a/x.age")).toBe("a/x.recipients");
});

test("the names of a text are its names, and nothing else of it", () => {
  const printed = printNames("/a/people.mullion.age", parse(people).tree, { bytes: 1423, readers: "0123456789abcdef" });
  expect(printed).toBe(names);
});

test("what was printed is read, with places in the names file", () => {
  const read = readNames(names);
  expect(read.sealedFor).toEqual({ bytes: 1423, readers: "0123456789abcdef" });
  expect(read.others).toEqual([{ kind: "keypad", name: "gate" }, { kind: "supply", name: "cupboard" }, { kind: "door" }]);
  expect(read.uses.map(({ text }) => text)).toEqual(["models/dunlin-3.mullion"]);
  const u3 = read.holders[1];
  expect(u3?.credentials.map(({ kind, name }) => [kind, name?.text])).toEqual([
    ["code", undefined],
    ["code", "yard"],
    ["tag", "bike"],
    ["tag", undefined],
  ]);
  for (const word of read.holders.flatMap(holder => [
    holder.name,
    ...holder.credentials.flatMap(one => [one.keyword, one.name ?? one.keyword]),
  ]))
    expect(names.slice(word.start, word.end)).toBe(word.text);
  const told = ({ holders }: Names) =>
    holders.map(({ name, credentials }) => [name.text, credentials.map(({ kind, name: own }) => [kind, own?.text])]);
  expect(told(readNames(names.replaceAll("\n", "\r\n")))).toEqual(told(read));
});

test("what a names file does not say rightly is passed over", () => {
  expect(readNames("")).toEqual(noNames);
  expect(readNames("\ufeff<<<<<<< ours\nholder\nholder 7: code\nuse models\nsealed many bytes\nkeypad 48 12\n=======\n")).toEqual(noNames);
  const one = readNames("\ufeffholder u1: code 4829, tag , blue, code  yard");
  expect(one.holders.map(({ name, credentials }) => [name.text, credentials.map(({ kind, name: own }) => [kind, own?.text])])).toEqual([
    [
      "u1",
      [
        ["tag", undefined],
        ["code", "yard"],
      ],
    ],
  ]);
});
