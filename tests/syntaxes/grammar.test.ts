/** What is coloured as what, while it is whole and while it is half typed. */
import { describe, expect, test } from "vitest";
import { colour, pieces } from "./support/textmate.ts";

const site = `use "models/dunlin-3.mullion"
site "Tannery Wharf" {
  address "Slip Lane, Eastmere" // by the river
}
holder u3 "Unit 3, print room"
  code 73046
  code yard 11539 until 2027-03-31
  tag bike 123,00334 "blue fob" lost
  tag van 0x7B014F
keypad gate "Lane gate" : dunlin-3 {
  installer code firm.gate
  all-relay 990 code mgr
  setting "key light" 1
  relay 1+2 "Foot gate" release 5s {
    01 u3
    14 u4 or u4.tag
    code
  }
  relay 2 "Porch" no codes
  relay 3 spare
}`;

const model = `model dunlin-3 "Three relays" {
  keys     0..9 * # BELL
  relays   1 = 4, 2 = 5
  reset    wipes everything  "Power off"
  setting  "key light" 0..2 factory 1   81 {value:1} OK
  enter           # {installer} *                    shows "lamp steady"
  put tag         8 {relay-number} {slot} [present tag] {tag:3+5} OK
  clear slot      9 {relay} {slots} OK
}`;

const wired = `door "Foot gate" {
  lock strike 12 V AC 350 mA fail-secure within 15 %
  cable 28 m 0.75 mm² class 5 at 40 °C
  near people
}
supply cupboard "Riser cupboard" 13.8 V DC 3 A {
  battery 12 V 7 Ah for 4 h
  feeds "Foot gate", keypad gate
}`;

describe("a door and its supply", () => {
  test("words of the lock, the cable and the supply", async () => {
    const door = ["lock", "strike", "AC", "fail-secure", "within", "cable", "class", "at", "near", "people"];
    expect(await pieces(wired, "keyword.other.fact")).toEqual([...door, "DC", "battery", "for", "feeds", "keypad"]);
  });

  test("units behind their numbers", async () => {
    expect(await pieces(wired, "keyword.other.unit")).toEqual(["V", "mA", "%", "m", "mm²", "°C", "V", "A", "V", "Ah", "h"]);
  });

  test("names and labels", async () => {
    expect(await pieces(wired, "entity.name.supply")).toEqual(["cupboard"]);
    expect(await pieces(wired, "variable.other.keypad")).toEqual(["gate"]);
    expect(await pieces(wired, "string.quoted.double")).toContain("Foot gate");
  });
});

describe("a site", () => {
  test("declarations and the names they give", async () => {
    expect(await pieces(site, "storage.type")).toEqual(["use", "site", "holder", "keypad"]);
    expect(await pieces(site, "entity.name.holder")).toEqual(["u3"]);
    expect(await pieces(site, "entity.name.credential")).toEqual(["yard", "bike", "van"]);
    expect(await pieces(site, "entity.name.keypad")).toEqual(["gate"]);
    expect(await pieces(site, "entity.name.type.model")).toEqual(["dunlin-3"]);
  });

  test("words that begin a fact", async () => {
    const facts = ["address", "code", "code", "until", "tag", "tag", "installer", "code", "all-relay", "code", "setting"];
    expect(await pieces(site, "keyword.other.fact")).toEqual([...facts, "relay", "release", "relay", "no", "codes", "relay", "spare"]);
    expect(await pieces(site, "keyword.other.lost")).toEqual(["lost"]);
  });

  test("who stands in which slot", async () => {
    expect(await pieces(site, "constant.numeric.slot")).toEqual(["990", "01", "14"]);
    expect(await pieces(site, "constant.numeric.relay")).toEqual(["1+2", "2", "3"]);
    expect(await pieces(site, "variable.other.holder")).toEqual(["firm", "mgr", "u3", "u4", "u4", "code"]);
    expect(await pieces(site, "variable.other.credential")).toEqual(["gate", "tag"]);
    expect(await pieces(site, "keyword.operator.word")).toEqual(["or"]);
  });

  test("numbers of every kind", async () => {
    expect(await pieces(site, "constant.numeric.tag")).toEqual(["123,00334", "0x7B014F"]);
    expect(await pieces(site, "constant.other.date")).toEqual(["2027-03-31"]);
    expect(await pieces(site, "keyword.other.unit")).toEqual(["s"]);
  });

  test("a word of the language that is somebody's name", async () => {
    const text = 'holder code "Code"\n  code 48291\nkeypad k "K" : m {\n  relay 1 "R" {\n    01 tag\n    02 spare\n    relay.code\n  }\n}';
    expect(await pieces(text, "entity.name.holder")).toEqual(["code"]);
    expect(await pieces(text, "variable.other.holder")).toEqual(["tag", "spare", "relay"]);
  });
});

describe("a model", () => {
  test("keys: capitals, `*` and `#`", async () => {
    expect(await pieces(model, "constant.character.key")).toEqual(["*", "#", "BELL", "OK", "#", "*", "OK", "OK"]);
  });

  test("fields, and a field that there is not", async () => {
    expect(await pieces(model, "keyword.other.field")).toEqual(["value", "installer", "relay-number", "slot", "tag", "relay"]);
    expect(await pieces(model, "invalid.illegal.field")).toEqual(["slots"]);
    expect(await pieces(model, "constant.numeric.width")).toEqual(["1", "3+5"]);
  });

  test("operations and what the hand does", async () => {
    expect(await pieces(model, "support.function.operation")).toEqual(["enter", "put tag", "clear slot"]);
    expect(await pieces(model, "string.unquoted.hand-action")).toEqual(["present tag"]);
  });
});

describe("a fitted record", () => {
  test("its model is a fact, the next model a declaration", async () => {
    const text = 'fitted gate 2026-11-20 partly {\n  model dunlin-3\n  relay 1 {\n    05 unknown\n  }\n}\nmodel plover "Plover" {\n}';
    expect(await pieces(text, "storage.type")).toEqual(["fitted", "model"]);
    expect(await pieces(text, "constant.language")).toEqual(["partly", "unknown"]);
    expect(await pieces(text, "entity.name.type.model")).toEqual(["dunlin-3", "plover"]);
  });
});

describe("half typed", () => {
  test("a declaration without its end does not swallow the next", async () => {
    for (const begun of [
      "site",
      'site "Wharf',
      "holder",
      "holder u1",
      'holder u1 "',
      "keypad gate",
      'keypad gate "Gate" : ',
      "model m",
      "fitted gate",
      "door",
    ]) {
      const words = await pieces(`${begun}\nholder u9 "Unit 9" code 48291`, "storage.type");
      expect(words.at(-1), begun).toBe("holder");
      expect(await pieces(`${begun}\nholder u9 "Unit 9"`, "entity.name.holder"), begun).toContain("u9");
    }
  });

  test("a text without its closing quote ends with its line", async () => {
    expect(await pieces('holder u1 "Unit 1\n  code 48291', "keyword.other.fact")).toEqual(["code"]);
  });

  test("what the hand does without its bracket ends with its line", async () => {
    expect(await pieces("model m {\n  put tag 8 [present\n  leave OK", "support.function.operation")).toEqual(["put tag", "leave"]);
  });

  test("an entry up to its dot", async () => {
    const text = 'keypad k "K" : m {\n  relay 1 "R" {\n    01 u1.\n    02 u2\n';
    expect(await pieces(text, "variable.other.holder")).toEqual(["u1", "u2"]);
    expect(await pieces(text, "punctuation.accessor")).toEqual(["."]);
  });
});

describe("comments", () => {
  test("an allowance names its finding", async () => {
    const text = "holder u1 // allow near-codes: same household\n// allow: nothing";
    expect(await pieces(text, "entity.name.finding")).toEqual(["near-codes"]);
    expect(await pieces(text, "keyword.other.allow")).toEqual(["allow"]);
  });

  test("two slashes inside a text begin none", async () => {
    expect(await pieces('site "a // b"', "comment")).toEqual([]);
  });
});

test("conflict markers stand out, and so does what is beside them", async () => {
  const text = "<<<<<<< HEAD\nholder u1\n=======\nholder u2\n>>>>>>> other";
  expect(await pieces(text, "invalid.illegal.merge-conflict")).toEqual(["<<<<<<< HEAD", "=======", ">>>>>>> other"]);
  expect(await pieces(text, "entity.name.holder")).toEqual(["u1", "u2"]);
});

test("a byte order mark and CRLF change nothing", async () => {
  const marked = `\uFEFF${site.replaceAll("\n", "\r\n")}`;
  expect(await pieces(marked, "storage.type")).toEqual(await pieces(site, "storage.type"));
  expect(await pieces(marked, "variable.other.holder")).toEqual(await pieces(site, "variable.other.holder"));
});

test("every piece of the language's punctuation and words has a scope of its own", async () => {
  const bare = (await colour(`${site}\n${model}`)).filter(piece => piece.scopes.length < 3 && piece.text !== ",");
  expect(bare.map(piece => piece.text)).toEqual([]);
});
