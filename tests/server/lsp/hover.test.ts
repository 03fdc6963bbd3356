/** What is said of the place under the cursor. */

import { expect, test } from "vitest";
import { HoverRequest, MarkupKind } from "vscode-languageserver/node";
import { mullion } from "../../support/fixture.ts";
import type { EditorOptions } from "./editor.ts";
import { inEditor, modern } from "./editor.ts";

async function hoverIn(text: string, options: EditorOptions = {}): Promise<string> {
  return inEditor(
    text,
    async editor => {
      const hover = await editor.client.sendRequest(HoverRequest.type, { textDocument: { uri: editor.uri }, position: editor.position });
      return hover && "value" in (hover.contents as object) ? (hover.contents as { value: string }).value : "";
    },
    options,
  );
}

async function checkHover(text: string, expected: string, options: EditorOptions = {}): Promise<void> {
  expect((await hoverIn(text, options)).trim()).toBe(
    expected
      .split("\n")
      .map(line => line.trim())
      .join("\n")
      .trim(),
  );
}

const site = (entries: string, more = "") => mullion`
  use "tiny.mullion"
  site "Tannery Wharf"
  holder u1 "Unit 1, pottery"
    code 4829
    tag 8061261 "blue fob"
  holder cln "Cleaner"
    until 2026-11-20
    code 2640
  holder firm "Our own codes" code gate 6044
  keypad plover "Lane gate" : tiny {
    installer code firm.gate
    relay 1 "Foot gate" release 5s {
      ${entries}
    }
  }
  ${more}
`;

test("an entry has its keys, what must be seen and its door", async () => {
  const said = await hoverIn(site("$01 u1\n      2 u1.tag\n      3 cln"));
  expect(said).toContain("`1 1 4829 #`");
  expect(said).toContain("**Foot gate**, slot `1`: still to be typed");
  expect(said).toContain("Must be seen: **one beep**");
});

test("an entry that is fitted says so", async () => {
  const record = "//- main.fitted.mullion\n  fitted plover 2026-11-20 {\n    model tiny\n    relay 1 {\n      1 code 4829\n    }\n  }";
  const said = await hoverIn(`//- main.mullion${site("$01 u1")}${record}`);
  expect(said).toContain("already fitted");
});

test("codes are dots where they are to be hidden", async () => {
  const said = await hoverIn(site("1 $0u1"), { settings: { maskCodes: true } });
  expect(said).toContain("`1 1 •••• #`");
  expect(said).not.toContain("4829");
});

test("a holder says where it gets in, and what has lapsed", () =>
  checkHover(
    site("1 u1\n      2 cln").replace("holder cln", "holder $0cln"),
    `**Cleaner** \`cln\`

     - code: **Foot gate** at Lane gate, slot 2; lapsed after 2026-11-20, and opens until it is taken out`,
  ));

const wired = `door "Foot gate" {
    lock strike 12 V 350 mA fail-secure
    cable 28 m 0.75 mm2
  }
  supply cupboard "Riser cupboard" 13.8 V 3 A {
    battery 12 V 7 Ah for 4 h
    feeds "Foot gate"
  }`;

test("a door has its sum: on mains, at the end of the battery, what was assumed, and who decides", async () => {
  const said = await hoverIn(site("1 u1", wired.replace('door "Foot', 'door "$0Foot')));
  // 24.5 Ω/km (IEC 60228, class 1 and 2, 0.75 mm², 20 °C): 0.35 A × 2 × 0.028 km × 24.5 Ω/km = 0.48 V.
  expect(said).toContain("on mains: 13.8 V less 0.48 V over 2 × 28 m of 0.75 mm² at 20 °C \\(1.372 Ω\\) leaves 13.32 V");
  expect(said).toContain("at the end of the battery: 10.8 V less 0.48 V");
  expect(said).toContain("relay 1 of Lane gate, 1 entry");
  expect(said).toContain("Assumed: 10 % either way of the rated voltage");
  expect(said).toContain("Local code, the maker's instructions and a competent person decide.");
});

test("a door that is not described says which relays release it, and nothing more", () =>
  checkHover(site("1 u1").replace('"Foot gate"', '"Foot$0 gate"'), "**Foot gate**\n\n- relay 1 of Lane gate, 1 entry"));

test("a supply has its budget and the hours of its battery", async () => {
  const said = await hoverIn(site("1 u1", wired.replace("supply cup", "supply $0cup")));
  expect(said).toContain("**Riser cupboard** `cupboard`");
  expect(said).toContain("all at once: 350 mA of 3 A, 2.65 A to spare");
  expect(said).toContain("needed for 4 h");
  expect(said).toContain("a competent person decide.");
});

test("an unnamed code says where it opens", () =>
  checkHover(site("1 u1").replace("code 4829", "$0code 4829"), "**Unit 1, pottery**\n\ncode: **Foot gate** at Lane gate, slot 1"));

test("an operation of a model has an example", async () => {
  const said = await hoverIn(mullion`
    model heron "Heron" {
      relays 1 = 1
      slots 1..3 per relay
      codes 4 digits
      enter * {installer} #  shows "lamp on"
      pu$0t code 1 {slot} {code} #  shows "one beep"
      open code {code}
    }
  `);
  expect(said).toContain("Must be seen: **one beep**");
  expect(said).toMatch(/For example: `1 1 \d{4} #`/);
});

test("a field of an operation says what it stands for", async () => {
  expect(await hoverIn('model heron "Heron" {\n  put code 1 {sl$0ot} {code} #\n}')).toContain("The slot's number");
});

test("a word of the language says what it means", async () => {
  expect(await hoverIn(site("1 u1").replace("release 5s", "rel$0ease 5s"))).toContain("Foot gate");
  expect(await hoverIn(site("1 u1").replace('site "', '$0site "'))).toContain("keypads this file keeps");
});

test("a name spelt like a word of the language is the name", async () => {
  expect(await hoverIn(site("1 u1", 'holder sit$0e "Site office" code 7304'))).toContain("Site office");
});

test("a hover answers while the entry beside it is half typed", async () => {
  expect(await hoverIn(site("$01 u1\n      2"))).toContain("`1 1 4829 #`");
});

test("a client that knows no Markdown gets plain text", () =>
  inEditor(
    site("$01 u1"),
    async editor => {
      const hover = await editor.client.sendRequest(HoverRequest.type, { textDocument: { uri: editor.uri }, position: editor.position });
      expect(hover?.contents).toMatchObject({ kind: MarkupKind.PlainText });
    },
    { client: { ...modern, textDocument: { ...modern.textDocument, hover: { contentFormat: ["plaintext"] } } } },
  ));

// The printings of this tag and its 26 bits stand in the published examples (supplier pages, unnamed; parity recomputed).
test("a tag's number is shown in every way that it may be printed, and as it is sent", async () => {
  await checkHover(
    mullion`
      site "Tannery Wharf"
      holder u1 "Unit 1" tag 213,$002000
    `,
    [
      "**tag**",
      "",
      "- the same tag: `13961168`, `213,02000`, `0xD507D0`",
      "- printed as ten digits `0013961168`, as eight digits `13961168`, as two halves `00213,02000`",
      "- facility 213, number 2000; in the open 26-bit frame `1 11010101 0000011111010000 1` (even parity, facility, number, odd parity)",
      "",
      "---",
      "",
      "tag: placed nowhere",
    ].join("\n"),
  );
});

test("of eight digits it is said how they were taken, and what else they could be", async () => {
  const said = await hoverIn(mullion`
    site "Tannery Wharf"
    holder u1 "Unit 1" tag 213$002000
  `);
  expect(said).toContain("- the same tag: `21302000`, `325,02800`, `0x1450AF0`");
  expect(said).toContain("were it facility and number without their comma, it would be `213,02000`");
});

test("a tag of more bits than the frame carries says so, a marked one has nothing to show", async () => {
  const large = await hoverIn(mullion`
    site "Tannery Wharf"
    holder u1 "Unit 1" tag 0x7B$0014E99AA
  `);
  expect(large).toContain("too large for the open 26-bit frame");
  const marked = await hoverIn(mullion`
    site "Tannery Wharf"
    holder u1 "Unit 1" tag "red$0 dot"
  `);
  expect(marked).not.toContain("26-bit");
});

// 1 live code of 10,000 needs 5,000.5 guesses in the mean (negative hypergeometric); 3 tries for each lockout of 60 s make 1,666 lockouts, 27.8 h.
test("a keypad says the odds of a guess, and how long who goes on has to wait", async () => {
  const said = await hoverIn(mullion`
    model locks "Locks out" {
      relays 1 = 1
      slots 1..3 per relay
      codes 4 digits
      lockout 3 tries 60s
      enter * {installer} #
      put code 1 {relay} {slot} {code} #
      clear slot 2 {relay} {slot} #
      set installer 3 {code} {code} #
      open code {code}
      factory { installer code 9753 }
    }
    holder u1 "Unit 1" code 4829
    keypad ga$0te "Gate" : locks {
      installer code 6044
      relay 1 "Gate" {
        1 u1
      }
    }
  `);
  expect(said).toContain(
    "1 live code of 4 digits; odds of a guess in the 3 tries before the lockout: 1 in 3333; who goes on waits out 27.8 hours of lockouts on average before a first hit",
  );
});
