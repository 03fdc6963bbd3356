/** What a change means, in sentences: two texts in, words out, and never a code. */
import { existsSync, globSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { parse } from "../../../grammar/parse.ts";
import type { SourceFile } from "../../../shared/finding.ts";
import { explainWarning } from "../../../shared/review/explain.ts";
import { reviewFormats } from "../../../shared/review/formats/index.ts";
import type { Review } from "../../../shared/review/review.ts";
import { isEmpty, isToType, reviewOf } from "../../../shared/review/review.ts";
import { told } from "../../../shared/review/told.ts";
import { warnings } from "../../../shared/review/warnings/index.ts";
import { loadSite } from "../../../shared/site/load.ts";
import { mullion, siteOf, today } from "../../support/fixture.ts";

const model = mullion`
  model two "Two relays" {
    keys 0..9 * # A
    relays 1 = 1, 2 = 2
    slots 01..09 per relay
    codes 4..6 digits
    length free
    rewrite replaces
    twins refused
    release 1s..9s
    setting "key light" 0..2 81 {value} #
    enter * {installer} #
    leave * *
    put code 1 {relay} {slot} {code} #
    put tag 2 {relay} {slot} [present tag] #
    clear slot 3 {relay} {slot} #
    set installer 9 {code} #
    set release 6 {relay} {seconds} #
    set all-relay 4 {code} #
    clear all-relay 5 #
    open code {code}
    open all-relay {relay-number} A {code}
    open tag [present tag]
    factory { installer code 9753 setting "key light" 1 }
  }
`;

const before = mullion`
  site "Reed Yard"
  ${model}
  holder own "Our own codes" code gate 6044
  holder mgr "Manager" code 918274
  holder u1 "Unit 1"
    code 4829
    tag 8061261 "blue fob"
  holder u2 "Unit 2" code 5591
  holder u3 "Unit 3"
    code 730465
    code yard 115396
  holder cln "Cleaner" until 2027-03-31 code 264091
  keypad gate "Lane gate" : two {
    installer code own.gate
    all-relay code mgr
    relay 1 "Foot gate" release 5s {
      01 u1
      02 u2
      03 u3
      04 cln
      08 u1.tag
    }
    relay 2 "Vehicle gate" {
      01 u3.yard
    }
  }
`;

const record = mullion`
  fitted gate 2026-11-20 {
    model two
    installer code 6044
    all-relay code 918274
    setting "key light" 1
    relay 1 release 5s {
      01 code 4829
      02 code 5591
      03 code 730465
      04 code 264091
      08 tag 8061261
    }
    relay 2 {
      01 code 115396
    }
  }
`;

const shown = { from: "HEAD~1", date: today, path: (file: string) => file.slice(1), at: () => ({ line: 1, column: 1 }) };
const compare = (old: string, fresh: string): Review => reviewOf(siteOf(old), siteOf(fresh), today);
const change = (...edits: readonly (readonly [string | RegExp, string])[]) =>
  edits.reduce((text, [from, to]) => {
    const next = text.replace(from, to);
    if (next === text) throw new Error(`the text of the test has ${from}`);
    return next;
  }, before);
const sentences = (review: Review) => [...review.people, ...review.keypads].map(({ text }) => text);

test("nothing changes where only comments, layout and the order of facts do", () => {
  const review = compare(
    before,
    change(["holder own", "\n\n// ours\nholder   own"], ['    tag 8061261 "blue fob"\n', '    tag 123,00333   "blue fob" // same\n']),
  );
  expect([isEmpty(review), isToType(review), told(review, shown).sections]).toEqual([
    true,
    false,
    [{ title: "Nothing changes", lines: [{ text: "Nobody and no door is touched, and there is nothing to type for it." }] }],
  ]);
});

test("a text that is compared with itself has no change, whatever is wrong with it", () => {
  const folder = join(import.meta.dirname, "../../../samples");
  const read = (file: string): SourceFile | undefined => {
    if (!existsSync(file)) return undefined;
    const text = readFileSync(file, "utf8");
    return { file, text, ...parse(text) };
  };
  const files = globSync("{broken,curlew-court,tannery-wharf}/*.mullion", { cwd: folder }).map(name => join(folder, name));
  const changed = files.filter(file => !isEmpty(reviewOf(loadSite(file, read), loadSite(file, read), today)));
  expect([files.length > 40, changed]).toEqual([true, []]);
});

test("a new code, somebody who no longer opens a door, somebody who opens another", () => {
  const review = compare(
    before,
    change(["code 5591", "code 8237"], ["      04 cln\n", ""], ["01 u3.yard\n", "01 u3.yard\n      05 u1.tag\n"]),
  );
  expect(sentences(review)).toEqual([
    "Unit 2 has a new code.",
    "Unit 1 opens Vehicle gate, with a tag.",
    "Cleaner no longer opens Foot gate.",
  ]);
  expect(isToType(review)).toBe(true);
});

test("people come and go; codes and tags are given, lost and taken; last days change", () => {
  const review = compare(
    before,
    change(
      ['holder u2 "Unit 2" code 5591', 'holder u5 "Unit 5" code 8237'],
      ["02 u2", "02 u5"],
      ["    code yard 115396\n", "    code yard 115396\n    tag bike 77\n"],
      ['tag 8061261 "blue fob"', 'tag 8061261 "blue fob" lost until 2027-01-31'],
      ["until 2027-03-31", "until 2027-06-30"],
      ["08 u1.tag", "08 u3.bike"],
    ),
  );
  expect(sentences(review)).toEqual([
    "Unit 1 has lost the tag 8061261 (blue fob).",
    "Unit 1 is meant to open until 2027-01-31.",
    "Unit 5 (u5) is new.",
    'Unit 3 is given a tag "bike" 77.',
    "Cleaner is meant to open until 2027-06-30, before: 2027-03-31.",
    "Unit 2 (u2) is taken out of the text.",
    "Unit 1 opens Foot gate with a code now, no longer with a tag.",
    "Unit 5 opens Foot gate, with a code.",
    "Unit 3 opens Foot gate with a code and a tag now.",
    "Unit 2 no longer opens Foot gate.",
  ]);
});

test("renames are seen as such: of holders, codes, keypads, doors; nobody gains or loses a door by them", () => {
  const wired = `${before}\ndoor "Foot gate" {\n  lock strike 12 V 350 mA\n}\nsupply box "Box" 12 V 3 A {\n  feeds "Foot gate", keypad gate\n}`;
  const renamed = wired
    .replaceAll(/\bu2\b/g, "sail")
    .replaceAll("yard", "lane")
    .replaceAll("keypad gate", "keypad front")
    .replaceAll("keypad gate", "keypad front")
    .replaceAll('"Foot gate"', '"River gate"');
  const review = compare(wired, renamed);
  expect(sentences(review)).toEqual([
    "Unit 2 is sail in the text now, before: u2.",
    'Unit 3 has the code "yard" as code "lane" now.',
    "The door Foot gate is now called River gate.",
    "The keypad Lane gate (gate) is now called Lane gate (front).",
  ]);
  expect([isToType(review), review.warnings]).toEqual([false, []]);
  const both = before.replaceAll("keypad gate", "keypad front").replace('"Lane gate" :', '"River wall" :');
  expect(sentences(compare(before, both))).toEqual(["The keypad Lane gate (gate) is now called River wall (front)."]);
});

test("two who exchange their names in the text are two who were renamed", () => {
  const swapped = before
    .replace('holder u2 "Unit 2" code 5591', 'holder u1 "Unit 2" code 5591')
    .replace('holder u1 "Unit 1"\n', 'holder u2 "Unit 1"\n')
    .replace("01 u1", "01 u2")
    .replace("02 u2", "02 u1")
    .replace("08 u1.tag", "08 u2.tag");
  const review = compare(before, swapped);
  expect(sentences(review)).toEqual(["Unit 1 is u2 in the text now, before: u1.", "Unit 2 is u1 in the text now, before: u2."]);
  expect([isToType(review), review.warnings]).toEqual([false, []]);
});

test("at a keypad: installer code, times, settings, moves, its model, its record", () => {
  const fresh = change(
    ["code gate 6044", "code gate 2350"],
    ["release 5s", "release 7s"],
    ["all-relay code mgr", 'all-relay code mgr\n    setting "key light" 2'],
    ["02 u2", "05 u2"],
    ["enter * {installer} #", "enter # {installer} #"],
  );
  expect(sentences(compare(`${before}\n${record}`, fresh)).slice(1)).toEqual([
    "Lane gate has a new installer code.",
    "Foot gate stays open for 7 s, before: 5 s.",
    'The setting "key light" of Lane gate is 2.',
    "The model of Lane gate, two, says something else: its entries may take other keys.",
    "Unit 2's code moves to slot 05 of Foot gate, before: 02.",
    "The record of what is fitted at Lane gate (gate) is gone: the next sheet starts from the factory.",
  ]);
  expect(sentences(compare(before, `${before}\n${record}`))).toEqual(["What is fitted at Lane gate (gate) is recorded: 2026-11-20."]);
  expect(sentences(compare(`${before}\n${record}`, `${before}\n${record.replace("-20", "-24")}`))).toEqual([
    "What is fitted at Lane gate (gate) is recorded: 2026-11-24; before: 2026-11-20.",
  ]);
});

test("what it will take: from the record, from the old text where there is none, from the factory for a new keypad", () => {
  const work = (old: string, fresh: string) => {
    const { work: found } = compare(old, fresh);
    return found.map(({ from, entries, keys, tags, waited, touched }) => [from, touched, entries, keys, tags.join(), waited]);
  };
  const fresh = change(["code 5591", "code 8237"], ["      08 u1.tag\n", "      07 u1.tag\n"]);
  // Enter 6, clear 5, code 9, tag 5, leave 2.
  expect(work(before, fresh)).toEqual([["text", true, 3, 27, "8061261", undefined]]);
  expect(work(`${before}\n${record}`, `${fresh}\n${record}`)).toEqual([["record", true, 3, 27, "8061261", 0]]);
  expect(work(`${before}\n${record}`, `${before}\n${record}`)).toEqual([["record", false, 0, 0, "", 0]]);
  const waiting = record.replace("      02 code 5591\n", "");
  expect(work(`${before}\n${waiting}`, `${fresh}\n${waiting}`)).toEqual([["record", true, 3, 27, "8061261", 1]]);
  const added = `${before}\nkeypad side "Side door" : two {\n  installer code own.gate\n  relay 1 "Side door" {\n    01 u1\n  }\n  relay 2 spare\n}`;
  expect(work(before, added)[1]).toEqual(["factory", true, 2, 31, "", undefined]);
});

test("an error holds back the sheet of its keypad, and is a new finding; one that was there is not", () => {
  const clash = change(["02 u2", "01 u2"]);
  const review = compare(before, clash);
  expect([review.work[0]?.why, review.found.map(({ code }) => code), isToType(review)]).toEqual([
    "an error holds its sheet back",
    ["slot-clash"],
    true,
  ]);
  expect(compare(clash, before).settled.map(({ code }) => code)).toEqual(["slot-clash"]);
  expect(compare(clash, `\n\n${clash}`).found).toEqual([]);
});

const warned = (review: Review) => review.warnings.map(({ code, message }) => `${code}: ${message}`);

test("code-inherited: another label, the same code; not with a new code, not for a tag", () => {
  const other = change(['"Unit 2"', '"Unit 2, tattooist"']);
  expect(warned(compare(before, other))).toEqual([
    "code-inherited: Unit 2 is now called Unit 2, tattooist, and the code is the same: where somebody else moved in, it is still known to who moved out",
  ]);
  expect(warned(compare(before, other.replace("5591", "8237")))).toEqual([]);
  expect(warned(compare('holder u1 "Unit 1" tag 77', 'holder u1 "Unit 9" tag 77'))).toEqual([]);
});

test("code-reissued: digits that were somebody else's in the old text, or are fitted for somebody else", () => {
  const [, moved] = [before, change(['holder u2 "Unit 2" code 5591', 'holder u9 "Unit 9" code 5591'], ["02 u2", "02 u9"])];
  expect(warned(compare(before, moved))).toEqual(["code-reissued: the new code of Unit 9 is one that Unit 2 had"]);
  // Long out of the text, and never taken out at the keypad.
  const without = change(['  holder u2 "Unit 2" code 5591\n', ""], ["      02 u2\n", ""]);
  const again = without
    .replace('holder u3 "Unit 3"', 'holder u9 "Unit 9" code 5591\n  holder u3 "Unit 3"')
    .replace("03 u3", "02 u9\n      03 u3");
  const words = "code-reissued: the new code of Unit 9 is one that slot 02 of Foot gate holds, by the record, for somebody else";
  expect(warned(compare(`${without}\n${record}`, `${again}\n${record}`))).toEqual([words]);
  // Typed and recorded together with the text that gives it: their own.
  const cleared = record.replace("      02 code 5591\n", "");
  expect(warned(compare(`${without}\n${cleared}`, `${again}\n${record}`))).toEqual([]);
  // Taken back before it was typed: their own, too.
  const tried = change(["code 5591", "code 8237"]);
  expect(warned(compare(`${tried}\n${record}`, `${before}\n${record}`))).toEqual([]);
});

test("both examples of each warning do what they say", () => {
  for (const { code, explain } of warnings) {
    expect([code, compare(explain.before, explain.triggers).warnings.map(one => one.code)]).toEqual([code, [code]]);
    expect([code, compare(explain.before, explain.quiet).warnings]).toEqual([code, []]);
    expect(explainWarning(code).split("\n")[0]).toBe(`# ${code}`);
  }
});

test("no format shows a code, whatever changes", () => {
  const fresh = `${change(["code 5591", "code 8237"], ['"Unit 1"', '"Unit 4829"'], ["code gate 6044", "code gate 2350"], ["code 264091", "code 730465"])}\n${record}`;
  const review = compare(`${before}\n${record}`, fresh);
  for (const { name, render } of reviewFormats) {
    const written = render([review], shown).replaceAll("Unit 4829", "");
    const codes = ["5591", "8237", "6044", "2350", "264091", "730465", "115396", "918274", "9753"];
    expect([name, codes.filter(code => written.includes(code))]).toEqual([name, []]);
  }
});

test("Markdown: labels do not become markup, places and names are code", () => {
  const clash = change(["02 u2", "01 u2"], ['"Unit 3"', '"Unit <3> @lane"']);
  const md = reviewFormats.find(({ name }) => name === "md")?.render([compare(before, clash)], shown) ?? "";
  expect(md).toContain("- Unit 3 is now called Unit \\<3\\> \\@lane.\n");
  expect(md).toMatch(/^- `main\.mullion:1:1` error: .* \(`slot-clash`\)$/m);
});

test("a site that is new, and one that is gone", () => {
  const none = loadSite("/main.mullion", () => undefined);
  const fresh = reviewOf(none, siteOf(before), today);
  expect([told(fresh, shown).compared, sentences(fresh).at(-1), isToType(fresh)]).toEqual([
    `New since HEAD~1, on ${today}.`,
    "Lane gate (gate) is new.",
    true,
  ]);
  const gone = reviewOf(siteOf(before), none, today);
  expect([told(gone, shown).site, sentences(gone).at(-1)]).toEqual([
    "Reed Yard",
    "Lane gate (gate) is no longer in the text; what is fitted there still opens.",
  ]);
});
