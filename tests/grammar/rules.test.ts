/** Every rule of the grammar has a sample that goes through it without a problem; the few that skip what is wrong have one with problems. */
import { describe, expect, it } from "vitest";
import { MullionParser } from "../../grammar/parser.ts";
import { tokenize } from "../../grammar/tokenize.ts";

const inKeypad = (fact: string) => `keypad g "x" : m { ${fact} }`;
const inRelay = (entry: string) => inKeypad(`relay 1 { ${entry} }`);
const inModel = (fact: string) => `model m "x" { ${fact} }`;
const inRecord = (fact: string) => `fitted g 2026-01-01 { ${fact} }`;
const inDoor = (fact: string) => `door "x" { ${fact} }`;
const inSupply = (fact: string) => `supply s "x" 12 V 3 A { ${fact} }`;

const samples: Readonly<Record<string, string>> = {
  file: "",
  declaration: 'use "a.mullion"',
  use: 'use "a.mullion"',
  site: 'site "x" { address "a" contact "b" note "c" note "d" }',
  textFact: 'site "x" { address "a" }',
  note: 'holder u1 "A" note "b"',
  policy: "policy { weak codes refuse near codes 2 digits warn guess odds 1 in 1000 allow }",
  policyRule: "policy { near codes allow }",
  holder: 'holder code "A" until 2027-01-01 code 1 tag 2 note "b"',
  codeCredential: 'holder u1 "A" code yard 0042 until 2027-01-01',
  tagCredential: 'holder u1 "A" tag bike 123,00334 "blue" lost until 2027-01-01 tag "red dot"',
  tagNumber: 'holder u1 "A" tag 0x7B014E',
  until: 'holder u1 "A" until 2028-02-29',
  quoted: 'site "x"',
  named: 'holder u1 "A"',
  number: 'holder u1 "A" code 1',
  date: 'holder u1 "A" until 2027-01-01',
  time: inKeypad("relay 1 release 5s"),
  phrase: inModel("rewrite replaces"),
  saidPhrase: inModel("relength keeps what was stored"),
  quantity: inModel("draws 60 mA"),
  keypad: inKeypad(""),
  storedFact: inKeypad('note "x"'),
  installer: inKeypad("installer code 1"),
  allRelay: inKeypad("all-relay 990 code u1.tag"),
  codeLength: inKeypad("code length 6"),
  setting: inKeypad('setting "key light" 1'),
  relayNumbers: inKeypad("relay 1+2+3"),
  relay: inKeypad('relay 1 "a" release toggle { 01 u1 } relay 2 spare relay 3 "b" no codes relay 4 { u1 }'),
  release: inKeypad("relay 1 release toggle"),
  entry: inRelay("01 u1 u2 03 u3"),
  pair: inRelay("01 u1 or u1.tag 02 u2 with u2.tag"),
  held: inRelay("u1.tag"),
  fitted: "fitted g unknown fitted h 2026-01-01 partly { }",
  storedBlock: inRecord("model m installer code 1"),
  modelRef: inRecord("model m"),
  fittedRelay: inRecord('relay 1+2 "a" release 5s { 01 unknown }'),
  fittedEntry: inRecord("relay 1 { 01 code 1 code 2 }"),
  stored: inRecord('relay 1 { 01 code 1 or tag 2 "x" 02 tag 3 with code 4 05 unknown unknown code 5 }'),
  storedCode: inRecord("all-relay 990 code 1 relay 1 { code 1 }"),
  storedTag: inRecord('relay 1 { tag "red dot" tag 1 "blue" }'),
  model: inModel(""),
  modelFact: inModel("cancel C"),
  keys: inModel("keys 0..9 * # OK"),
  relays: inModel("relays 1 = 4, 1+2 = 7"),
  relayKeys: inModel("relays 1 = 4 B"),
  slots: inModel("slots 001..099 codes, 100..499 tags shared, 990..999 all-relay holds code with tag"),
  slotRange: inModel("slots 00..59 per relay"),
  codes: inModel("codes 4..8 digits installer 6..8 digits"),
  lengths: inModel("codes 5 | 7 digits"),
  fixedRule: inModel("length set by entry twins all fire session one entry listens to the last keys acts after a pause"),
  releaseRange: inModel("release 1s..99s, toggle = 00"),
  waiting: inModel("settle 15s lapse 30s"),
  lockout: `${inModel("lockout none")} ${inModel("lockout 5 tries 60s")}`,
  refused: inModel('refused shows "x"'),
  shows: inModel('enter OK shows "x"'),
  cancel: inModel("cancel C"),
  resetByHand: inModel('reset wipes everything "x" reset installer code "y"'),
  settingDef: inModel('setting "k" 0..2 factory 1 81 {value:1} OK shows "x"'),
  tags: inModel("tags 24 bits"),
  draws: inModel("draws 0.1 A"),
  contactRating: inModel("contact 2 A 30 V"),
  factory: inModel("factory { installer code 1 relay 1 release 5s }"),
  operation: inModel("clear all 70 OK wipes everything set all-relay 1 {code} open both {code} [present tag] leave OK"),
  template: inModel("enter * {installer} #"),
  element: inModel("enter 1 OK"),
  keyElement: inModel("enter 1 OK"),
  fieldElement: inModel("put tag {tag:3+5} {slot:2}"),
  handElement: inModel("put tag [present tag] [wait 3s]"),
  door: inDoor(""),
  doorFact: inDoor(
    "lock start contact 12 V AC 350 mA 1.5 A inrush resistive stays within 15 % cable 28 m 22 AWG class 5 at 40 C release on alarm near people",
  ),
  doorNote: inDoor('note "x"'),
  wordsAndQuantities: inDoor("contact closes to open exit lever route fire door"),
  supply: inSupply(""),
  supplyFact: inSupply('note "x"'),
  battery: inSupply("battery 12 V 7 Ah for 4 h down to 10.8 V"),
  feeds: inSupply('feeds "a", keypad g'),
  headJunk: inKeypad(""),
  restOfLine: inKeypad("installer code 1"),
};

const damaged: Readonly<Record<string, string>> = { junk: inKeypad("nothing"), astray: "nothing" };

class Watched extends MullionParser {
  readonly visited = new Set<string>();

  /** Chevrotain calls this as it enters a rule. */
  ruleInvocationStateUpdate(shortName: number, name: string, index: number): void {
    this.visited?.add(name);
    (MullionParser.prototype as unknown as Record<string, (...values: unknown[]) => void>).ruleInvocationStateUpdate?.call(
      this,
      shortName,
      name,
      index,
    );
  }
}

const parser = new Watched();

describe("each rule of the grammar", () => {
  it("has a sample", () => {
    const rules = Object.keys(parser.getGAstProductions());
    expect([...Object.keys(samples), ...Object.keys(damaged), "keysText"].sort()).toEqual(rules.sort());
  });

  for (const [rule, text] of Object.entries(samples)) {
    it(`${rule}: ${text.replace(/\d{4,}/g, "0")}`, () => {
      parser.visited.clear();
      const { tokens, problems } = tokenize(text);
      expect([...problems, ...parser.read(text, tokens).problems]).toEqual([]);
      expect(parser.visited).toContain(rule);
    });
  }

  for (const [rule, text] of Object.entries(damaged)) {
    it(`${rule}: ${text}`, () => {
      parser.visited.clear();
      expect(parser.read(text, tokenize(text).tokens).problems).toHaveLength(1);
      expect(parser.visited).toContain(rule);
    });
  }

  it("stands up to Chevrotain's own checks", () => {
    expect(() => new MullionParser(true)).not.toThrow();
  });
});
