/** What may stand at a cursor, also where the line is half typed. `$0` is the cursor. */
import { describe, expect, it } from "vitest";
import type { Allowed } from "../../grammar/allowed.ts";
import { expectedAt } from "../../grammar/expected.ts";
import { parse } from "../../grammar/parse.ts";

function said(allowed: Allowed): string {
  switch (allowed.kind) {
    case "keyword":
      return allowed.word;
    case "sign":
      return `'${allowed.sign}'`;
    case "credential":
      return `<credential of ${allowed.holder}>`;
    case "text":
    case "number":
    case "new-name":
      return `<${allowed.kind} of ${allowed.of}>`;
    default:
      return `<${allowed.kind}>`;
  }
}

function expectedIn(fixture: string): string {
  const offset = fixture.indexOf("$0");
  return expectedAt(fixture.replace("$0", ""), offset).allowed.map(said).join(" ");
}

const inRelay = (line: string) =>
  `holder u1 "A" code 1\nkeypad g "x" : m {\n  relay 1 "a" {\n    01 u1\n    ${line}\n  }\n}\nholder u9 "Z"\n`;
const inKeypad = (line: string) => `holder u1 "A" code 1\nkeypad g "x" : m {\n  ${line}\n  relay 3 spare\n}\nholder u9 "Z"\n`;
const inModel = (line: string) => `model m "x" {\n  keys 0..9\n  ${line}\n  leave OK\n}\nholder u9 "Z"\n`;
const inFitted = (line: string) => `fitted g 2026-01-01 {\n  model m\n  relay 1 {\n    ${line}\n  }\n}\n`;
const declarations = "use site policy holder model keypad fitted door supply";

describe("what may stand", () => {
  const cases: [string, string, string][] = [
    ["in an empty file", "$0", declarations],
    ["on a new line after a declaration", 'site "x"\n$0', `'{' ${declarations}`],
    ["in a half-typed declaration", 'site "x"\nhol$0', `'{' ${declarations}`],
    ["after use", "use $0", "<text of path>"],
    ["inside a path", 'use "mod$0\nsite "x"', "<text of path>"],
    ["after holder", "holder $0", "<new-name of holder>"],
    ["after a holder's name", "holder u1 $0", "<text of label>"],
    ["after a holder's label", 'holder u1 "A" $0', `code tag until note ${declarations}`],
    ["after code", 'holder u1 "A" code $0', `<new-name of credential> <code> ${declarations}`],
    ["after a code", 'holder u1 "A"\n  code 1 $0', `code tag until note ${declarations}`],
    ["after until", 'holder u1 "A"\n  until $0', `<date> ${declarations}`],
    ["after a tag's number", 'holder u1 "A" tag 5 $0', `<text of mark> lost code tag until note ${declarations}`],
    ["after keypad", "keypad $0", "<new-name of keypad>"],
    ["for a keypad's model", 'keypad g "x" : $0', "<model>"],
    ["at a new entry", inRelay("$0"), "<slot> <holder> '}'"],
    ["after a slot", inRelay("02 $0"), "<holder>"],
    ["in a half-typed holder", inRelay("02 u$0"), "<holder>"],
    ["after a holder's dot", inRelay("02 u1.$0"), "<credential of u1>"],
    ["in a half-typed credential", inRelay("02 u1.ta$0"), "<credential of u1>"],
    ["after a holder", inRelay("02 u1 $0"), "'.' or with <slot> <holder> '}'"],
    ["after or", inRelay("02 u1 or $0"), "<holder>"],
    ["after a pair", inRelay("02 u1 or u1.tag $0"), "<slot> <holder> '}'"],
    ["at a new fact of a keypad", inKeypad("$0"), "relay installer all-relay code setting note '}'"],
    ["in a half-typed fact of a keypad", inKeypad("rel$0"), "relay installer all-relay code setting note '}'"],
    ["after installer", inKeypad("installer $0"), "code"],
    ["after installer code", inKeypad("installer code $0"), "<holder> <code>"],
    ["after a holder of the installer code", inKeypad("installer code u1.$0"), "<credential of u1>"],
    ["after relay", inKeypad("relay $0"), "<relay>"],
    ["after a relay's number", inKeypad("relay 2 $0"), "'+' <text of door> release '{' spare no codes"],
    ["inside a relay's label", inKeypad('relay 2 "Fo$0"'), "<text of door>"],
    ["after release", inKeypad('relay 2 "a" release $0'), "<time> toggle"],
    ["after setting", inKeypad("setting $0"), "<text of setting>"],
    [
      "at a new fact of a model",
      inModel("$0").slice(0, 60),
      "keys relays slots codes length rewrite twins relength release settle lapse lockout refused cancel reset setting tags session listens acts draws contact note factory enter leave put clear set open '}'",
    ],
    ["after rewrite", inModel("rewrite $0"), "replaces refused"],
    ["after put", inModel("put $0"), "code tag"],
    ["among an operation's keys", inModel("put code 7 $0"), "<key> <field> <hand> shows"],
    ["in a field", inModel("put code 7 {$0"), "<field>"],
    ["in a half-typed field", inModel("put code 7 {sl$0} OK"), "<field>"],
    ["after a field's name", inModel("put code 7 {slot $0"), "':' '}'"],
    ["after a field's colon", inModel("put code 7 {slot:$0"), "<number of width>"],
    ["after shows", inModel("put code 7 shows $0"), "<text of shows>"],
    ["at a place of a record", inFitted("$0"), "<slot> code tag unknown '}'"],
    ["after a place's slot", inFitted("01 $0"), "code tag unknown"],
    ["after the code of a record", inFitted("01 code $0"), "<code>"],
    ["after a record's model", "fitted g 2026-01-01 {\n  model $0\n}", "<model>"],
    ["in a model's factory", 'model m "x" {\n  factory {\n    $0\n  }\n}', "relay installer all-relay code setting note '}'"],
    [
      "in a relay of a model's factory",
      'model m "x" {\n  factory {\n    relay 1 {\n      $0\n    }\n  }\n}',
      "<slot> code tag unknown '}'",
    ],
    ["in a policy", "policy {\n  $0\n}", "weak codes near codes guess odds '}'"],
    ["after near codes", "policy {\n  near codes $0\n}", "<number of digits> warn refuse allow"],
    ["in a door", 'door "x" {\n  $0\n}', "lock contact cable exit route release on alarm near people note '}'"],
    ["after exit", 'door "x" {\n  exit $0\n}', "bar lever button none"],
    [
      "after a number of a lock",
      'door "x" {\n  lock strike 12 $0\n}',
      "<unit> lock contact cable exit route release on alarm near people note '}'",
    ],
    [
      "after what a lock is: nothing that it cannot be besides",
      'door "x" {\n  lock motor lock 12 V DC stays $0\n}',
      "inrush resistive within <quantity>",
    ],
    ["behind a supply's volts", 'supply s "x" 12 V $0', "<quantity> AC DC '{'"],
    ["in a supply", 'supply s "x" 12 V 3 A {\n  feeds $0\n}', "<text of door> keypad"],
    [
      "on a new line after a fact that lacks something",
      inKeypad("installer\n  $0"),
      "code relay installer all-relay code setting note '}'",
    ],
    ["after an unnumbered holder", inRelay("u1 $0"), "'.' or with <slot> <holder> '}'"],
    ["in a file that begins with an empty line", "\n$0", declarations],
    ["in a comment", "// use $0", ""],
  ];
  for (const [where, fixture, allowed] of cases) it(where, () => expect(expectedIn(fixture)).toBe(allowed));
});

it("says what a completion replaces", () => {
  const fixture = inRelay("02 u1.t$0ag");
  const offset = fixture.indexOf("$0");
  const text = fixture.replace("$0", "");
  const { start, end, typed } = expectedAt(text, offset);
  expect([text.slice(start, end), typed]).toEqual(["tag", "t"]);
});

it("reads only the declaration around the cursor", () => {
  const long = `${'holder u1 "A" code 1\n'.repeat(50_000)}keypad g "x" : m {\n  relay 1 {\n    `;
  const reading = timeOf(() => parse(long));
  expect(expectedAt(long, long.length).allowed[0]).toEqual({ kind: "slot" });
  expect(timeOf(() => expectedAt(long, long.length))).toBeLessThan(reading / 5);
});

function timeOf(work: () => void): number {
  const start = performance.now();
  work();
  return performance.now() - start;
}
