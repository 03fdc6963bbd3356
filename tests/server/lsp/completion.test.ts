/** What can be written at the cursor, and in which order. */

import { expect, test } from "vitest";
import type { CompletionItem, CompletionList } from "vscode-languageserver/node";
import { CompletionRequest, CompletionResolveRequest } from "vscode-languageserver/node";
import { mullion } from "../../support/fixture.ts";
import type { EditorOptions, OpenFixture } from "./editor.ts";
import { inEditor, modern } from "./editor.ts";

async function complete(editor: OpenFixture): Promise<CompletionItem[]> {
  const { uri, position } = editor;
  const list = (await editor.client.sendRequest(CompletionRequest.type, { textDocument: { uri }, position })) as CompletionList;
  return [...list.items].sort((one, other) => (one.sortText ?? "").localeCompare(other.sortText ?? ""));
}

/** The first labels that are offered, in order. */
async function checkOffered(text: string, expected: readonly string[], options: EditorOptions = {}): Promise<void> {
  await inEditor(
    text,
    async editor => {
      await editor.workspace.indexed;
      expect((await complete(editor)).slice(0, expected.length).map(({ label }) => label)).toEqual(expected);
    },
    options,
  );
}

/** The text after the suggestion of this label is taken. */
async function checkTaken(text: string, label: string, expected: string, options: EditorOptions = {}): Promise<void> {
  await inEditor(
    text,
    async editor => {
      const item = (await complete(editor)).find(each => each.label === label);
      const edit = item?.textEdit;
      if (!edit || !("range" in edit)) throw new Error(`${label} is not offered`);
      const lines = editor.textOf(editor.uri).split("\n");
      const line = lines[edit.range.start.line] ?? "";
      lines[edit.range.start.line] = line.slice(0, edit.range.start.character) + edit.newText + line.slice(edit.range.end.character);
      expect(lines.join("\n")).toContain(expected);
    },
    options,
  );
}

const relay = (entries: string) => mullion`
  model heron "Heron" {
    relays 1 = 4, 2 = 5, 1+2 = 7
    slots 01..59 per relay holds code or tag
    codes 4 digits
    keys 0..9 OK
    length set by entry
    setting "key light" 0..2 factory 1  81 {value:1} OK
    put code 7 {relay} {slot} {code} OK
  }
  holder u1 "Unit 1"
    code 4829
    tag 8061261 "blue fob"
  holder u2 "Unit 2" code 5591
  holder u3 "Unit 3"
    code yard 7304
    tag bike 123,00334
  keypad gate "Gate" : heron {
    relay 1 "Foot gate" {
      ${entries}
    }
  }
`;

test("an entry: the next free slot with whoever is not there yet, then the slot alone, then the others", () =>
  checkOffered(relay("01 u2\n      $0\n      02 u1"), ["03 u3.yard", "03", "03 u3.bike", "03 u1.tag"]));

test("an entry: behind the highest slot, and before it where nothing is left", () =>
  checkOffered(relay("01 u2\n      59 u1\n      $0"), ["02 u3.yard"]));

test("an entry: typed as far as its first digit", () => checkTaken(relay("01 u2\n      0$0"), "02 u1", "      02 u1\n"));

test("a holder, behind a slot", () => checkOffered(relay("01 u2\n      02 $0"), ["u1", "u1.tag", "u3.yard", "u3.bike", "u2"]));

test("a code or tag of the holder, behind a dot", () => checkOffered(relay("01 u3.$0"), ["yard", "bike"]));

test("the other half of a pair, as the model has it", async () => {
  await checkOffered(relay("01 u1 $0"), ["or"]);
  await checkOffered(relay("01 u1 or $0"), ["u1.tag", "u1"]);
});

test("no code is ever in a label or beside it", () =>
  inEditor(relay("01 u2\n      $0"), async editor => {
    expect(JSON.stringify(await complete(editor))).not.toMatch(/4829|5591|7304|8061261/);
  }));

test("a suggestion that is looked at says more", () =>
  inEditor(relay("01 u2\n      02 $0"), async editor => {
    const [first] = await complete(editor);
    if (!first) throw new Error("nothing is offered");
    const { documentation } = await editor.client.sendRequest(CompletionResolveRequest.type, first);
    expect(documentation).toMatchObject({ value: expect.stringContaining("**Unit 1**") });
  }));

test("a model, behind the colon of a keypad", () =>
  checkOffered(
    mullion`
  model heron "Heron" { slots 1..3 per relay codes 4 digits }
  keypad gate "Gate" : $0
`,
    ["heron"],
  ));

test("in a keypad: the installer code and relays that are not mentioned yet, singles before sets", () =>
  checkOffered(relay("01 u2").replace(/\n {4}\}\n {2}\}/, "\n    }\n    $0\n  }"), [
    "installer code",
    "relay 2",
    "relay 1+2",
    "code length",
  ]));

test("a relay comes with places to fill in, and as plain text where the editor knows none", async () => {
  const text = relay("01 u2").replace(/\n {4}\}\n {2}\}/, "\n    }\n    $0\n  }");
  await checkTaken(text, "relay 2", `relay 2 "$\{1:Door}" {\n\t$0\n}`);
  const { completion: _completion, ...textDocument } = modern.textDocument ?? {};
  await checkTaken(text, "relay 2", 'relay 2 "Door" {\n\t\n}', { client: { ...modern, textDocument } });
});

test("codes for the installer, behind its words", () =>
  checkOffered(relay("01 u2").replace("relay 1 ", "installer code $0\n    relay 1 "), ["u1", "u2", "u3.yard"]));

test("settings of the model that are not said yet", () =>
  inEditor(relay("01 u2").replace("relay 1 ", "$0\n    relay 1 "), async editor => {
    expect((await complete(editor)).map(({ label }) => label)).toContain('setting "key light"');
  }));

test("fields of an operation, the next that is missing first", async () => {
  const model = (line: string) =>
    `model heron "Heron" {\n  relays 1 = 4, 2 = 5\n  slots 01..59 per relay\n  codes 4 digits\n  keys 0..9 OK\n  ${line}\n}\n`;
  await checkOffered(model("put code 7 {relay} {$0"), ["code", "slot", "relay"]);
  await checkTaken(model("put code 7 {relay} {sl$0"), "slot", "put code 7 {relay} {slot}");
  await checkTaken(model("put code 7 {relay} {sl$0}"), "slot", "put code 7 {relay} {slot}");
  await checkTaken(model("put tag 8 {relay} {slot} $0"), "[present tag]", "put tag 8 {relay} {slot} [present tag]");
});

test("operations that the model lacks, with what they need", () =>
  checkTaken(
    'model heron "Heron" {\n  relays 1 = 4, 2 = 5\n  slots 01..59 per relay\n  codes 4 digits\n  $0\n}\n',
    "put code",
    `put code  $\{1:{code\\} {slot\\} {relay\\}} shows "$0"`,
  ));

test("of thousands of holders the likeliest, and the others as soon as more is typed", async () => {
  const many = Array.from({ length: 2000 }, (_, index) => `holder u${index} "Unit ${index}" code ${String(index).padStart(5, "0")}`).join(
    "\n",
  );
  const at = (typed: string) => `${many}\n${relay(`01 ${typed}$0`).replaceAll(/^ {2}/gm, "")}\n`;
  const listed = (text: string) =>
    inEditor(text, async ({ client, uri, position }) =>
      client.sendRequest<CompletionList>(CompletionRequest.method, { textDocument: { uri }, position }),
    );
  const all = await listed(at(""));
  expect(all.isIncomplete).toBe(true);
  expect(all.items).toHaveLength(300);
  const some = await listed(at("u199"));
  expect(some.items.map(({ label }) => label)).toContain("u1999");
  expect(some.items.length).toBeLessThan(100);
});

test("declarations, at the margin", () =>
  inEditor(`site "Wharf"\n$0\n`, async editor => {
    const labels = (await complete(editor)).map(({ label }) => label);
    expect(labels).toEqual(expect.arrayContaining(["holder", "keypad", "model", "use"]));
    expect(labels).not.toContain("site");
  }));

test("a door that a relay leads to and nobody describes", () =>
  inEditor(`${relay("01 u2").replaceAll(/^ {2}/gm, "")}\n$0\n`, async editor => {
    expect((await complete(editor)).map(({ label }) => label)).toContain('door "Foot gate"');
  }));

const wired = (line: string) => mullion`
  keypad gate "Lane gate" : tiny { relay 1 "Foot gate" { } relay 2 "Store \"A\"" { } }
  keypad back "Back" : tiny { relay 1 "Yard" { } }
  door "Foot gate" {
    ${line.startsWith("lock") || line.startsWith("cable") ? line : ""}
  }
  supply first "First" 12 V 1 A { feeds "Foot gate", keypad gate }
  supply cupboard "Cupboard" 12 V 1 A {
    ${line.startsWith("lock") || line.startsWith("cable") ? "" : line}
  }
`;

test.each([
  ["a lock", "lock strike 12 $0", ["V", "mA", "A", "%"]],
  ["a lock with its volts", "lock strike 12 V 350 $0", ["mA", "A", "%", "V"]],
  ["a cable", "cable 28 $0", ["m", "mm2", "AWG", "C"]],
  ["a cable with its length", "cable 28 m 0.75 $0", ["mm2", "AWG", "C", "m"]],
  ["a battery", "battery 12 V 7 $0", ["Ah", "h", "V"]],
])("the unit behind a number of %s", (_what, line, expected) => checkOffered(wired(line), expected));

test("what a supply feeds: first what nothing feeds yet", () =>
  checkOffered(wired("feeds $0"), ['"Store \\"A\\""', '"Yard"', "keypad back", '"Foot gate"', "keypad gate"]));

test("a keypad that a supply feeds", () => checkOffered(wired('feeds "Yard", keypad $0'), ["back", "gate"]));

test("a label that a supply feeds is written in its quotes", () => checkTaken(wired("feeds $0"), '"Yard"', 'feeds "Yard"'));

test("files, in a use", () =>
  checkTaken(
    mullion`
      //- main.mullion
      use "mo$0"
      //- models/heron.mullion
      model heron "Heron" { }
    `,
    "models/heron.mullion",
    'use "models/heron.mullion"',
  ));

test.each([
  ["in a comment", "// $0"],
  ["in a label", 'holder u1 "Un$0it"'],
  ["in a date", 'holder u1 "Unit 1" until 2027-$0'],
])("nothing %s", (_what, text) => inEditor(text, async editor => expect(await complete(editor)).toEqual([])));

test("while other lines are half typed", () => checkOffered(`holder\n${relay("01 u2\n      $0\n      02")}`, ["03 u1"]));

/** Every label that is offered. */
const offered = (text: string) => inEditor(text, async editor => (await complete(editor)).map(({ label }) => label));

test.each([
  ["in a holder", 'holder u1 "Unit 1" $0', ["code", "tag", "until", "note"]],
  ["behind a tag", 'holder u1 "Unit 1" tag 8061261 $0', ["lost", "code", "tag", "until", "note"]],
  ["behind a relay's label", 'keypad gate "Gate" : heron {\n  relay 1 "Foot gate" $0\n}', ["release", "spare", "no codes"]],
  ["in a rule of a model", 'model heron "Heron" {\n  twins $0\n}', ["refused", "first fires", "all fire"]],
  [
    "behind the slots of a model",
    'model heron "Heron" {\n  slots 00..59 $0\n}',
    ["codes", "tags", "all-relay", "per relay", "shared", "unnumbered"],
  ],
  ["in a policy", "policy {\n  $0\n}", ["weak codes", "near codes", "guess odds"]],
  ["behind a setting, where nothing goes on", 'keypad gate "Gate" : heron {\n  setting "key light" 1 $0\n}', []],
])("words of the language %s", async (_what, text, expected) => expect(await offered(text)).toEqual(expected));

test("a word of the language says what it means", () =>
  inEditor('keypad gate "Gate" : heron {\n  relay 1 "Foot gate" s$0\n}', async editor => {
    const item = (await complete(editor)).find(({ label }) => label === "spare");
    if (!item) throw new Error("spare is not offered");
    const { documentation } = await editor.client.sendRequest(CompletionResolveRequest.type, item);
    expect(documentation).toMatchObject({ value: expect.stringContaining("Nothing is wired") });
  }));
