/** What was typed at a keypad, written into its record from the editor. */
import { expect, test } from "vitest";
import type { RecordParams } from "../../../shared/requests.ts";
import { mullion } from "../../support/fixture.ts";
import type { OpenFixture } from "./editor.ts";
import { afterEdits, inEditor, uriOf } from "./editor.ts";

const site = mullion`
  //- wharf.mullion
  use "tiny.mullion"
  site "Tannery Wharf"
  holder u1 "Unit 1" code 4829
  holder u2 "Unit 2" code 5591
  holder firm "Our own codes" code gate 6044
  keypad plover "Plover" : tiny {
    installer code firm.gate
    relay 1 "Foot gate" {
      1 u1
      2 u2
    }
  }
`;

const record = mullion`
  //- wharf.fitted.mullion
  // Kept since the first visit.
  fitted heron unknown

  fitted plover 2026-11-20 {
    model tiny
    installer code 6044
    relay 1 { 1 code 4829 } // u1
  }
`;

const typed = { uri: uriOf("/wharf.mullion"), keypad: "plover", date: "2026-11-25" };

async function recordTyped(editor: OpenFixture, params: Partial<RecordParams>) {
  return editor.client.sendRequest<{
    edits: { uri: string; create?: boolean; changes: { start: never; end: never; text: string }[] }[];
    recorded: number;
    refused?: string;
  }>("mullion/record", { ...typed, done: "all", ...params });
}

/** The record after the edits. */
async function after(editor: OpenFixture, params: Partial<RecordParams>): Promise<string> {
  const { edits, refused } = await recordTyped(editor, params);
  expect(refused).toBeUndefined();
  const changes = edits.map(
    ({ uri, changes }) => [uri, changes.map(({ start, end, text }) => ({ range: { start, end }, newText: text }))] as const,
  );
  return afterEdits(editor, { changes: Object.fromEntries(changes) }).get("/wharf.fitted.mullion") ?? "";
}

test("a first record is a new file beside the site, with who has what", () =>
  inEditor(site, async editor => {
    const { edits, recorded } = await recordTyped(editor, {});
    expect(edits.map(({ uri, create }) => [uri, create])).toEqual([[uriOf("/wharf.fitted.mullion"), true]]);
    expect(recorded).toBe(3);
    expect(edits[0]?.changes[0]?.text).toBe(
      [
        "fitted plover 2026-11-25 {",
        "  model tiny",
        "  installer code 6044",
        "  relay 1 {",
        "    1 code 4829              // u1",
        "    2 code 5591              // u2",
        "  }",
        "}",
        "",
      ].join("\n"),
    );
  }));

test("only the keypad's own block is changed, and with as little as can be", () =>
  inEditor(site + record, async editor => {
    const text = await after(editor, {});
    expect(text).toContain("// Kept since the first visit.\nfitted heron unknown\n\nfitted plover 2026-11-25 {");
    expect(text).toMatch(/ 2 code 5591 +\/\/ u2\n/);
  }));

test("a doubtful entry makes its slot unknown", () =>
  inEditor(site + record, async editor => expect(await after(editor, { done: "", doubt: "1" })).toContain("2 unknown")));

test("a keypad that was swapped is recorded from factory, whatever the record said", () =>
  inEditor(site + record, async editor => {
    expect([(await recordTyped(editor, {})).recorded, (await recordTyped(editor, { replaced: true })).recorded]).toEqual([1, 3]);
    expect(await after(editor, { replaced: true, done: "1-2" })).not.toMatch(/ 2 code/);
  }));

test("afterwards nothing waits to be typed", () =>
  inEditor(site + record, async editor => {
    await editor.open("/wharf.fitted.mullion");
    await editor.type("/wharf.fitted.mullion", await after(editor, {}));
    expect(await editor.client.sendRequest("mullion/waiting", { uri: typed.uri })).toMatchObject({ keypads: [{ entries: 0 }] });
  }));

test.each<[string, Partial<RecordParams>, RegExp]>([
  ["a keypad that is not there", { keypad: "dunlin" }, /no keypad dunlin/],
  ["an entry that is not there", { done: "1-9" }, /no entry 2/],
  ["what is no number", { done: "some" }, /1-6,8/],
  ["another sheet than the one typed from", { sheet: "000-000" }, /another sheet/],
])("refused in words: %s", (_what, params, reason) =>
  inEditor(site + record, async editor => {
    const { refused, edits } = await recordTyped(editor, params);
    expect(refused).toMatch(reason);
    expect(edits).toEqual([]);
  }),
);

test("refused while an error holds the sheet back, and while the record cannot be read", async () => {
  await inEditor(site.replace("2 u2", "1 u2") + record, async editor =>
    expect((await recordTyped(editor, {})).refused).toMatch(/already holds/),
  );
  await inEditor(`${site}//- wharf.fitted.mullion\nfitted\n`, async editor =>
    expect((await recordTyped(editor, {})).refused).toMatch(/an error holds the sheet of Plover back: expected the name of a keypad/),
  );
});

test("the sheet's number says which sheet it was, however it was copied; another one is refused and told apart", () =>
  inEditor(`${site}\n${record}`, async editor => {
    const { files } = await editor.client.sendRequest<{ files: { content: string }[] }>("mullion/sheet", {
      uri: typed.uri,
      format: "json",
    });
    const { number } = JSON.parse(files[0]?.content ?? "").keypads[0];
    const { refused, recorded } = await recordTyped(editor, { sheet: ` ${number.toLowerCase().replace("-", " ")}` });
    expect([refused, recorded]).toEqual([undefined, 1]);
    expect(await recordTyped(editor, { sheet: "000-000" })).toMatchObject({ otherSheet: true, recorded: 0, edits: [] });
  }));
