/** A model's text compiled: what is wrong with it, each kind once, and what is taken where the text is silent. */
import { describe, expect, test } from "vitest";
import { parse } from "../../../grammar/parse.ts";
import { compileModel } from "../../../shared/keypad/compile.ts";
import { modelDecl, modelOf } from "../../support/keypad.ts";

const plain = [
  "keys 0..9 A OK",
  "relays 1 = 4, 2 = 5",
  "slots 00..59 per relay",
  "codes 4 digits",
  "release 1s..99s, toggle = 00",
  "enter OK {installer} OK",
  "leave OK OK",
  "put code 7 {relay} {slot} {code} OK",
  "clear slot 9 {relay} {slot} OK",
  "open code {code}",
];

/** The problems of a model, each with the words that it points at; lines replace those that begin with the same words. */
function problems(...own: readonly string[]): readonly string[] {
  const first = (line: string) => /^(?:put|clear|set|open) \S+|^\S+/.exec(line)?.[0];
  const lines = [...plain.filter(line => !own.some(other => first(other) === first(line))), ...own.filter(line => !line.endsWith(" gone"))];
  const text = `model m "M" {\n  ${lines.join("\n  ")}\n}`;
  return compileModel(modelDecl(text), "/m.mullion").problems.map(
    ({ check, kind, span, severity }) =>
      `${check} ${kind}${severity === "warning" ? " (warning)" : ""}: ${text.slice(span.start, span.end)}`,
  );
}

test("the plain model has nothing wrong with it", () => {
  expect(problems()).toEqual([]);
});

describe("model-field", () => {
  test.each([
    ["set release 6 {rellay} {seconds:2} OK", ["model-field unknown-field: {rellay}", "model-incomplete field-missing: set release"]],
    ["put code 7 {relay} {slot:1} {code} OK", ["model-field field-narrow: {slot:1}"]],
    ["set release 6 {relay} {seconds:1} OK", ["model-field field-narrow: {seconds:1}", "model-field field-width: {seconds:1}"]],
    ["set release 6 {relay} {seconds:3} OK", ["model-field field-width: {seconds:3}"]],
    ["put code 7 {relay} {slot} {code:4} OK", ["model-field field-width: {code:4}"]],
    ["put code 7 {relay} {slot:1+1} {code} OK", ["model-field field-width: {slot:1+1}"]],
    ["put code 7 {relay} {slot:0} {code} OK", ["model-field field-width: {slot:0}"]],
    ["clear tag 9 {tag:7} OK", ["model-field field-narrow: {tag:7}"]],
    ["clear tag 9 {tag:2+5} OK", ["model-field field-narrow: {tag:2+5}"]],
    ["clear tag 9 {tag:3+4} OK", ["model-field field-narrow: {tag:3+4}"]],
    ["clear tag 9 {tag:3+5} OK", []],
    ["clear tag 9 {tag:8} OK", []],
    ["leave OK BELL", ["model-field key-missing: BELL"]],
    ["cancel # #", ["model-field key-missing: #", "model-field key-missing: #"]],
    ["relays 1 = 4, 2 = 4", ["model-field relay-keys-twice: 2 = 4"]],
    ["relays 1 = 4, 1 = 5, 2 = 6", ["model-field relay-keys-twice: 1 = 5"]],
    ["relays 1 = 4, 2 = STAR", ["model-field key-missing: 2 = STAR"]],
    ['setting "light" 0..12 81 {value:1} OK', ["model-field field-narrow: {value:1}"]],
    ['setting "light" 5..2 81 {value:1} OK', ['model-field number-range: setting "light" 5..2 81 {value:1} OK']],
    ['setting "light" 0..2 factory 7 81 {value:1} OK', ["model-field number-range: 7"]],
    ["slots 59..00 per relay", ["model-field number-range: 59..00", "model-incomplete fact-missing: 59..00 per relay"]],
    ["slots 00..59, 50..70 per relay", ["model-field number-range: 50..70"]],
    ["slots 01..500 shared", ["model-field field-width: 01..500"]],
    ["codes 40 digits", ["model-field number-range: 40 digits"]],
    ["codes 6..4 digits", ["model-field number-range: 6..4 digits"]],
    ["release 1s..99s, toggle = 07", ["model-field number-range: 07"]],
    ["release 9s..1s", ["model-field number-range: release 9s..1s"]],
    ["tags 12 bits", ["model-field number-range: 12"]],
  ])("%s", (line, expected) => {
    expect(problems(line)).toEqual(expected);
  });
});

describe("model-incomplete", () => {
  test.each([
    [["enter gone"], ["model-incomplete operation-missing: m"]],
    [["put code gone"], ["model-incomplete operation-missing: m"]],
    [["open code gone"], ["model-incomplete operation-missing: m"]],
    [["slots gone"], ["model-incomplete fact-missing: m"]],
    [["codes gone"], ["model-incomplete fact-missing: m"]],
    [["put code 7 {relay} {slot} OK"], ["model-incomplete field-missing: put code"]],
    [["put code 7 {relay} {code} OK"], ["model-incomplete field-missing: put code"]],
    [["put code 7 {slot} {code} OK"], ["model-incomplete field-missing: put code"]],
    [["put code 7 {relay} {slot} {code} {seconds:2} OK"], ["model-incomplete field-not-here: {seconds:2}"]],
    [["put code 7 {relay} {slot} {code} [present tag] OK"], ["model-incomplete field-not-here: [present tag]"]],
    [["cancel {code}"], ["model-incomplete field-not-here: {code}"]],
    [["enter OK OK"], ["model-incomplete field-missing: enter"]],
    [["put tag 8 {relay} {slot} OK"], ["model-incomplete field-missing: put tag", "model-incomplete operation-missing: put tag"]],
    [["put tag 8 {relay} {slot} [present tag] OK"], ["model-incomplete operation-missing: put tag"]],
    [["set all-relay 32 {code} OK"], ["model-incomplete operation-missing: set all-relay"]],
    [["set length 60 {digits:1} OK"], ["model-incomplete contradiction: set length"]],
    [["codes 4 | 6 digits", "length set by entry"], ["model-incomplete operation-missing: m"]],
    [["codes 4 | 6 digits"], ["model-incomplete fact-missing: codes 4 | 6 digits"]],
    [["codes 4 | 6 digits installer 8 digits", "length follows installer code"], ["model-incomplete contradiction: m"]],
    [["set release 6 {relay} {seconds:2} OK", "release gone"], ["model-incomplete contradiction: set release"]],
    [["slots 90 unnumbered", "put code 7 {relay} {code} OK", "clear slot 9 {relay} OK"], ["model-incomplete contradiction: clear slot"]],
    [["slots 90 unnumbered", "clear slot gone", "clear code 9 {code} OK"], ["model-incomplete field-not-here: {slot}"]],
    [["slots 00..59, 90..92 all-relay per relay", "clear all-relay 33 OK"], ["model-incomplete contradiction: clear all-relay"]],
    [["factory { relay 3 release 5s }"], ["model-incomplete factory: 3"]],
    [
      ["factory { relay 1 { 60 code 1234\n01 code 12345\n02 code 1234\n02 code 1235 } }"],
      ["model-incomplete factory: 60", "model-incomplete factory: 12345", "model-incomplete factory: 02 code 1235"],
    ],
    [["slots 00..59 per relay holds code or tag"], ["model-incomplete operation-missing: m"]],
  ])("%j", (lines, expected) => {
    expect(problems(...lines)).toEqual(expected);
  });

  test("what can be put but neither overwritten nor cleared is told, as a warning", () => {
    expect(problems("rewrite refused", "clear slot gone")).toEqual(["model-incomplete limits (warning): put code"]);
    expect(problems("rewrite replaces", "clear slot gone")).toEqual([]);
    expect(problems("slots 90 unnumbered", "put code 7 {relay} {code} OK", "clear slot gone")).toEqual([
      "model-incomplete limits (warning): put code",
    ]);
  });
  test("an operation that is written but wrong is left out, and not missing as well", () => {
    const text = `model m "M" {\n${plain.join("\n").replace("{slot} {code}", "{slot} {kode}")}\n}`;
    const { model } = compileModel(modelDecl(text), "/m.mullion");
    expect([...(model?.operations.keys() ?? [])]).toEqual(["enter", "leave", "clear slot", "open code"]);
  });
  test("an operation that could be typed in too many ways is refused rather than slow", () => {
    const many = [...Array(64).keys()].map(i => `${i + 1} = ${i + 10}`).join(", ");
    expect(
      problems(
        `relays ${many}`,
        "codes 1..32 digits",
        "length free",
        "slots 1..500 per relay",
        "put code 7 {relay} {slot} {code} OK",
        "clear slot 9 {relay} {slot} OK",
      ),
    ).toEqual(["model-field number-range: put code"]);
  });
  test("a half-typed model has problems and does not stop", () => {
    for (const text of [
      "model",
      "model m",
      'model m "M" {',
      'model m "M" { slots }',
      'model m "M" { slots 00..',
      "model m { put code 7 {",
    ]) {
      expect(compileModel(halfTyped(text), "/m.mullion").model, text).toBeUndefined();
    }
  });
});

function halfTyped(text: string) {
  const decl = parse(text).tree.declarations[0];
  if (decl?.kind !== "model") throw new Error("no model");
  return decl;
}

test("where the text is silent, what works on a keypad of either kind", () => {
  const model = modelOf(
    'model m "M" {\n slots 1..9 shared\n codes 4 digits\n enter * {installer} #\n put code 1 {slot} {code} #\n clear slot 2 {slot} #\n open code {code}\n}',
  );
  const { rewrite, twins, relength, settleSeconds, tagBits, session, listens, acts, lapseSeconds, lockout, release, length } = model;
  expect({ rewrite, twins, relength, settleSeconds, tagBits, session, listens, acts, lapseSeconds, lockout, release, length }).toEqual({
    rewrite: "refused",
    twins: "refused",
    relength: "clears",
    settleSeconds: 0,
    tagBits: 24,
    session: "many entries",
    listens: "from the first key",
    acts: "at once",
    lapseSeconds: undefined,
    lockout: undefined,
    release: undefined,
    length: "one",
  });
  expect([...model.keys].join(" ")).toBe("0 1 2 3 4 5 6 7 8 9 * #");
  expect([...model.relays]).toEqual([["1", ["1"]]]);
  expect(model.slots).toEqual({ addressing: "shared", bands: [{ from: 1, to: 9 }], width: 1, capacity: 9, holds: "one" });
});

test("what a model says of itself", () => {
  const model = modelOf(`model m "M" {
    keys 0..3 7 A OK *
    relays 1 = 1, 2 = A A, 2+1 = 12
    slots 001..099 codes, 100..499 tags shared, 990..999 all-relay holds code or tag
    codes 4..6 digits installer 8 digits
    length free
    relength keeps what was stored
    lockout 5 tries 60s
    reset wipes everything "Pull the pin"
    reset installer code "Turn the key"
    draws 60 mA
    contact 2 A 30 V
    setting "light" 0..2 factory 1 3 3 {value:1} OK
    enter A {installer} OK
    put code A {relay} {slot} {code} OK
    put tag OK {relay} {slot} [present tag] OK
    clear slot 2 {slot} OK
    open code {code}
    open tag [present tag]
    factory { setting "light" 2 }
  }`);
  expect([...model.keys]).toEqual(["0", "1", "2", "3", "7", "A", "OK", "*"]);
  expect([...model.relays]).toEqual([
    ["1", ["1"]],
    ["2", ["A", "A"]],
    ["1+2", ["1", "2"]],
  ]);
  expect(model.relayNumbers).toEqual([1, 2]);
  expect(model.slots).toEqual({
    addressing: "shared",
    bands: [
      { from: 1, to: 99, kept: "codes" },
      { from: 100, to: 499, kept: "tags" },
      { from: 990, to: 999, kept: "all-relay" },
    ],
    width: 3,
    capacity: 499,
    holds: "code or tag",
  });
  expect([model.codeLengths, model.installerLengths, model.installerOwn]).toEqual([[4, 5, 6], [8], true]);
  expect(model.lockout).toEqual({ tries: 5, seconds: 60 });
  expect(model.resets).toEqual([
    { what: "everything", text: "Pull the pin" },
    { what: "installer code", text: "Turn the key" },
  ]);
  expect([model.drawsAmps, model.contact]).toEqual([0.06, { amps: 2, volts: 30 }]);
  expect(model.factory.settings.get("light")).toBe(2);
});
