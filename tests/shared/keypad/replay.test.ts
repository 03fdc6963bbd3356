/** What a keypad takes and refuses, as transcripts in the words of `mullion replay`: keys on the left, what came of them on the right. */
import { describe, expect, test } from "vitest";
import { replay } from "../../../shared/keypad/replay.ts";
import { acts, memoryFrom, modelOf, transcript } from "../../support/keypad.ts";

/** Two relays, ten places each; every line can be said anew, and what is given replaces the line that begins with the same words. */
function keypad(...own: readonly string[]) {
  const plain = [
    "keys 0..9 A C OK",
    "relays 1 = 4, 2 = 5, 1+2 = 7",
    "slots 00..09 per relay",
    "codes 4 | 6 digits",
    "length follows installer code",
    "rewrite replaces",
    "twins all fire",
    "relength clears",
    "release 1s..99s, toggle = 00",
    "cancel C",
    'setting "key light" 0..2 factory 1 81 {value:1} OK',
    "enter OK {installer} OK",
    "leave OK OK",
    "put code 7 {relay} {slot} {code} OK",
    "put tag 8 {relay} {slot} [present tag] OK",
    "clear slot 9 {relay} {slot} OK",
    "set installer 31 {code} {code} OK",
    "set all-relay 32 {code} OK",
    "clear all-relay 33 OK",
    "set release 6 {relay} {seconds:2} OK",
    "clear all 70 {installer} OK",
    "open code {code}",
    "open all-relay {relay-number} A {code}",
    "open tag [present tag]",
    "factory { installer code 2468 }",
  ];
  const first = (line: string) => /^(?:put|clear|set|open) \S+|^\S+/.exec(line)?.[0];
  const kept = plain.filter(line => !own.some(other => first(other) === first(line)));
  return modelOf(
    `model replayed "For transcripts" {\n  ${[...kept, ...own.filter(line => !line.endsWith("none at all"))].join("\n  ")}\n}`,
  );
}

/** A transcript without the indent of the test. */
function lines(text: string): string {
  return text.replaceAll(/^ {6}/gm, "").trim();
}

describe("a session", () => {
  test("enter, entries, leave", () => {
    expect(
      transcript(
        keypad(),
        "OK 2468 OK 7 4 01 4829 OK 7 7 01 5591 OK 8 5 03 [present tag 8061261] OK 32 9182 OK 6 5 10 OK 6 4 00 OK 81 2 OK OK OK",
      ),
    ).toBe(
      lines(`
      OK 2468 OK → enter, taken
      7 4 01 4829 OK → put code, taken
      7 7 01 5591 OK → put code, taken
      8 5 03 [present tag 8061261] OK → put tag, taken
      32 9182 OK → set all-relay, taken
      6 5 10 OK → set release, taken
      6 4 00 OK → set release, taken
      81 2 OK → set setting, taken
      OK OK → leave, taken

      memory
        installer code 2468
        all-relay code 9182
        setting "key light" 2
        relay 2 release 10s
        relay 1 release toggle
        relay 1
          01 code 4829
        relay 1+2
          01 code 5591
        relay 2
          03 tag 8061261`),
    );
  });
  test("outside programming mode nothing is taken, a wrong installer code does not enter", () => {
    expect(transcript(keypad(), "OK 1111 OK OK 2468 OK OK OK 7 4 01 4829")).toBe(
      lines(`
      OK 1111 OK → enter, refused: wrong-installer-code
      OK 2468 OK → enter, taken
      OK OK → leave, taken
      7 4 01 4829 → unknown keys, refused: not-in-programming

      memory
        installer code 2468
        setting "key light" 1`),
    );
  });
  test("one entry a session: the next one falls on deaf ears", () => {
    expect(
      transcript(
        keypad("session one entry", "leave none at all"),
        "OK 2468 OK 7 4 10 4829 OK 7 4 01 4829 OK 7 4 02 5591 OK OK 2468 OK 7 4 02 5591 OK",
      ),
    ).toBe(
      lines(`
      OK 2468 OK → enter, taken
      7 4 10 4829 OK → put code, refused: slot-range
      7 4 01 4829 OK → put code, taken
      7 4 02 5591 OK → unknown keys, refused: not-in-programming
      OK 2468 OK → enter, taken
      7 4 02 5591 OK → put code, taken

      memory
        installer code 2468
        setting "key light" 1
        relay 1
          01 code 4829
          02 code 5591`),
    );
  });
  test("enter is heard wherever it stands", () => {
    expect(transcript(keypad(), "7 4 01 4829 OK OK 24 OK 2468 OK 7 4 01 4829 OK")).toBe(
      lines(`
      7 4 01 4829 OK OK 24 → unknown keys, refused: not-in-programming
      OK 2468 OK → enter, taken
      7 4 01 4829 OK → put code, taken

      memory
        installer code 2468
        setting "key light" 1
        relay 1
          01 code 4829`),
    );
  });
  test("an installer code that nobody knew is known once it has entered", () => {
    const model = keypad();
    const { memory } = replay(model, memoryFrom(model, "relay 1 { 01 unknown }"), acts("OK 864208 OK"));
    expect(memory.installer).toBe("864208");
  });
  test("what is half typed at the end is no step", () => {
    const { steps, unread, inProgramming } = replay(keypad(), keypad().factory, acts("OK 2468 OK 7 4 01"));
    expect([steps.length, unread.length, inProgramming]).toEqual([1, 4, true]);
  });
});

describe("keys that no entry goes on with", () => {
  test("are dropped up to and including the first such key; reading starts afresh", () => {
    expect(transcript(keypad(), "OK 2468 OK 7 4 A 1 7 3 7 4 01 482 OK 7 4 01 4829 OK")).toBe(
      lines(`
      OK 2468 OK → enter, taken
      7 4 A → unknown keys, refused: unknown-keys
      1 → unknown keys, refused: unknown-keys
      7 3 → unknown keys, refused: unknown-keys
      7 4 01 482 OK → unknown keys, refused: unknown-keys
      7 4 01 4829 OK → put code, taken

      memory
        installer code 2468
        setting "key light" 1
        relay 1
          01 code 4829`),
    );
  });
  test("a code of another length than the one in force is such a thing", () => {
    expect(transcript(keypad(), "OK 2468 OK 7 4 01 482917 OK")).toBe(
      lines(`
      OK 2468 OK → enter, taken
      7 4 01 48291 → unknown keys, refused: unknown-keys
      7 OK → unknown keys, refused: unknown-keys

      memory
        installer code 2468
        setting "key light" 1`),
    );
  });
  test("cancel drops what is half typed, or does nothing", () => {
    expect(transcript(keypad(), "OK 2468 OK 7 4 C C 7 4 01 4829 C 7 4 02 5591 OK")).toBe(
      lines(`
      OK 2468 OK → enter, taken
      7 4 C → cancel, taken
      C → cancel, taken
      7 4 01 4829 C → cancel, taken
      7 4 02 5591 OK → put code, taken

      memory
        installer code 2468
        setting "key light" 1
        relay 1
          02 code 5591`),
    );
  });
  test("a cancel of two keys, the first of which could go on with the entry, and one that is broken off", () => {
    const model = keypad("cancel A A", "put code 7 A {relay} A {slot} A {code} OK");
    expect(transcript(model, "OK 2468 OK 7 A A 7 A 4 A A 7 A 4 A 01 A 4829 OK 7 A 4 A 0 A 1 7 A 4 A 02 A 5591 OK")).toBe(
      lines(`
      OK 2468 OK → enter, taken
      7 A A → cancel, taken
      7 A 4 A A → cancel, taken
      7 A 4 A 01 A 4829 OK → put code, taken
      7 A 4 A 0 A 1 → unknown keys, refused: unknown-keys
      7 A 4 A 02 A 5591 OK → put code, taken

      memory
        installer code 2468
        setting "key light" 1
        relay 1
          01 code 4829
          02 code 5591`),
    );
  });
  test("a key that the keypad does not have, and an action that means nothing to it", () => {
    expect(transcript(keypad(), "OK 2468 OK 7 BELL [wave] 7 4 01 4829 OK")).toBe(
      lines(`
      OK 2468 OK → enter, taken
      7 BELL → unknown keys, refused: unknown-keys
      [wave] → unknown keys, refused: unknown-keys
      7 4 01 4829 OK → put code, taken

      memory
        installer code 2468
        setting "key light" 1
        relay 1
          01 code 4829`),
    );
  });
});

describe("what is refused, and why", () => {
  test("values out of range, each with its reason", () => {
    expect(
      transcript(
        keypad("release 5s..60s", "slots 00..04 codes, 05..09 tags per relay"),
        "OK 2468 OK 7 4 55 4829 OK 7 4 07 4829 OK 8 4 01 [present tag 334] OK 9 4 99 OK 6 4 04 OK 6 4 61 OK 81 3 OK 31 1111 2222 OK 70 1111 OK",
      ),
    ).toBe(
      lines(`
      OK 2468 OK → enter, taken
      7 4 55 4829 OK → put code, refused: slot-range
      7 4 07 4829 OK → put code, refused: slot-kind
      8 4 01 [present tag 334] OK → put tag, refused: slot-kind
      9 4 99 OK → clear slot, refused: slot-range
      6 4 04 OK → set release, refused: setting-range
      6 4 61 OK → set release, refused: setting-range
      81 3 OK → set setting, refused: setting-range
      31 1111 2222 OK → set installer, refused: values-differ
      70 1111 OK → clear all, refused: wrong-installer-code

      memory
        installer code 2468
        setting "key light" 1`),
    );
  });
  test("rewrite refused: a taken place is cleared first; the all-relay code is replaced all the same", () => {
    expect(
      transcript(
        keypad("rewrite refused"),
        "OK 2468 OK 7 4 01 4829 OK 7 4 01 5591 OK 7 4 01 4829 OK 9 4 01 OK 9 4 01 OK 7 4 01 5591 OK 32 9182 OK 32 9183 OK",
      ),
    ).toBe(
      lines(`
      OK 2468 OK → enter, taken
      7 4 01 4829 OK → put code, taken
      7 4 01 5591 OK → put code, refused: slot-taken
      7 4 01 4829 OK → put code, refused: slot-taken
      9 4 01 OK → clear slot, taken
      9 4 01 OK → clear slot, taken
      7 4 01 5591 OK → put code, taken
      32 9182 OK → set all-relay, taken
      32 9183 OK → set all-relay, taken

      memory
        installer code 2468
        all-relay code 9183
        setting "key light" 1
        relay 1
          01 code 5591`),
    );
  });
  test("twins refused: slots, tags and the all-relay code, but not the installer code, and no slot is its own twin", () => {
    expect(
      transcript(
        keypad("twins refused"),
        "OK 2468 OK 7 4 01 4829 OK 7 4 01 4829 OK 7 5 01 4829 OK 32 4829 OK 32 9182 OK 32 9182 OK 7 4 02 9182 OK 8 4 03 [present tag 334] OK 8 5 03 [present tag 334] OK 7 4 04 2468 OK 31 4829 4829 OK",
      ),
    ).toBe(
      lines(`
      OK 2468 OK → enter, taken
      7 4 01 4829 OK → put code, taken
      7 4 01 4829 OK → put code, taken
      7 5 01 4829 OK → put code, refused: twin
      32 4829 OK → set all-relay, refused: twin
      32 9182 OK → set all-relay, taken
      32 9182 OK → set all-relay, taken
      7 4 02 9182 OK → put code, refused: twin
      8 4 03 [present tag 334] OK → put tag, taken
      8 5 03 [present tag 334] OK → put tag, refused: twin
      7 4 04 2468 OK → put code, taken
      31 4829 4829 OK → set installer, taken

      memory
        installer code 4829
        all-relay code 9182
        setting "key light" 1
        relay 1
          01 code 4829
          03 tag 334
          04 code 2468`),
    );
  });
  test("the order of reasons: number, kind, taken, twin", () => {
    expect(
      transcript(
        keypad("twins refused", "rewrite refused", "slots 00..04 codes, 05..09 tags per relay"),
        "OK 2468 OK 7 4 01 4829 OK 7 5 01 5591 OK 7 4 44 4829 OK 7 4 07 4829 OK 7 5 01 4829 OK 7 5 02 4829 OK",
      ),
    ).toBe(
      lines(`
      OK 2468 OK → enter, taken
      7 4 01 4829 OK → put code, taken
      7 5 01 5591 OK → put code, taken
      7 4 44 4829 OK → put code, refused: slot-range
      7 4 07 4829 OK → put code, refused: slot-kind
      7 5 01 4829 OK → put code, refused: slot-taken
      7 5 02 4829 OK → put code, refused: twin

      memory
        installer code 2468
        setting "key light" 1
        relay 1
          01 code 4829
        relay 2
          01 code 5591`),
    );
  });
});

describe("a new code length", () => {
  const keys = "OK 2468 OK 7 4 01 4829 OK 8 4 02 [present tag 334] OK 32 9182 OK 31 135791 135791 OK 7 4 03 482911 OK";
  test("clears codes and all-relay codes, not tags", () => {
    expect(transcript(keypad(), keys)).toContain(
      lines(`
      7 4 03 482911 OK → put code, taken

      memory
        installer code 135791
        setting "key light" 1
        relay 1
          02 tag 334
          03 code 482911`),
    );
  });
  test("keeps what was stored, asleep", () => {
    expect(transcript(keypad("relength keeps what was stored"), keys)).toContain(
      lines(`
      memory
        installer code 135791
        all-relay code 9182
        setting "key light" 1
        relay 1
          01 code 4829
          02 tag 334
          03 code 482911`),
    );
  });
  test("set by an entry: the installer code stays as long as it was and still enters", () => {
    const model = keypad("length set by entry", "set length 60 {digits:1} OK", "factory { installer code 2468\ncode length 4 }");
    expect(transcript(model, "OK 2468 OK 7 4 01 4829 OK 60 4 OK 60 5 OK 60 6 OK 7 4 01 482911 OK OK OK OK 2468 OK")).toBe(
      lines(`
      OK 2468 OK → enter, taken
      7 4 01 4829 OK → put code, taken
      60 4 OK → set length, taken
      60 5 OK → set length, refused: setting-range
      60 6 OK → set length, taken
      7 4 01 482911 OK → put code, taken
      OK OK → leave, taken
      OK 2468 OK → enter, taken

      memory
        installer code 2468
        code length 6
        setting "key light" 1
        relay 1
          01 code 482911`),
    );
  });
});

describe("other memories", () => {
  test("shared numbers, typed as they are: one number is one place, whatever it fires", () => {
    const model = keypad(
      "slots 1..500 shared",
      "put code 7 {slot} A {relay} {code} OK",
      "put tag 8 {slot} A {relay} {tag:3+5} OK",
      "clear slot 9 {slot} OK",
    );
    expect(
      transcript(
        model,
        "OK 2468 OK 7 7 A 4 4829 OK 7 007 A 5 5591 OK 7 501 A 4 4829 OK 7 0 A 4 4829 OK 8 500 A 7 12300334 OK 8 9 A 4 00165536 OK 9 12 OK",
      ),
    ).toBe(
      lines(`
      OK 2468 OK → enter, taken
      7 7 A 4 4829 OK → put code, taken
      7 007 A 5 5591 OK → put code, taken
      7 501 A 4 4829 OK → put code, refused: slot-range
      7 0 A 4 4829 OK → put code, refused: slot-range
      8 500 A 7 12300334 OK → put tag, taken
      8 9 A 4 00165536 OK → put tag, refused: setting-range
      9 12 OK → clear slot, taken

      memory
        installer code 2468
        setting "key light" 1
        relay 2
          7 code 5591
        relay 1+2
          500 tag 8061262`),
    );
  });
  test("without numbers: it finds its own place until there is none, and is cleared by what is in it", () => {
    const model = keypad(
      "slots 3 unnumbered",
      "put code 7 {relay} {code} OK",
      "put tag 8 {relay} [present tag] OK",
      "clear slot none at all",
      "clear code 91 {code} OK",
      "clear tag 92 {tag:8} OK",
    );
    expect(
      transcript(
        model,
        "OK 2468 OK 7 4 4829 OK 7 4 4829 OK 7 5 4829 OK 8 5 [present tag 334] OK 7 4 5591 OK 91 4829 OK 7 4 5591 OK 92 00000334 OK 91 7777 OK",
      ),
    ).toBe(
      lines(`
      OK 2468 OK → enter, taken
      7 4 4829 OK → put code, taken
      7 4 4829 OK → put code, taken
      7 5 4829 OK → put code, taken
      8 5 [present tag 334] OK → put tag, taken
      7 4 5591 OK → put code, refused: memory-full
      91 4829 OK → clear code, taken
      7 4 5591 OK → put code, taken
      92 00000334 OK → clear tag, taken
      91 7777 OK → clear code, taken

      memory
        installer code 2468
        setting "key light" 1
        relay 1
          code 5591`),
    );
  });
  test("clear code takes every place that holds it, the all-relay code among them", () => {
    const model = keypad("clear code 91 {code} OK");
    expect(transcript(model, "OK 2468 OK 7 4 01 4829 OK 7 5 02 4829 OK 32 4829 OK 7 4 03 5591 OK 91 4829 OK")).toContain(
      lines(`
      memory
        installer code 2468
        setting "key light" 1
        relay 1
          03 code 5591`),
    );
  });
  test("one per relay", () => {
    const model = keypad(
      "slots one per relay",
      "put code 7 {relay} {code} OK",
      "put tag 8 {relay} [present tag] OK",
      "clear slot 9 {relay} OK",
    );
    expect(transcript(model, "OK 2468 OK 7 4 4829 OK 7 5 5591 OK 8 5 [present tag 334] OK 9 4 OK")).toContain(
      lines(`
      memory
        installer code 2468
        setting "key light" 1
        relay 2
          tag 334`),
    );
  });
  test("a code and a tag in one place: each half is written by itself, and clearing takes both", () => {
    const model = keypad("slots 00..09 per relay holds code or tag", "rewrite refused");
    expect(
      transcript(
        model,
        "OK 2468 OK 7 4 01 4829 OK 8 4 01 [present tag 334] OK 8 4 01 [present tag 335] OK 7 4 02 5591 OK 8 4 02 [present tag 336] OK 9 4 02 OK",
      ),
    ).toBe(
      lines(`
      OK 2468 OK → enter, taken
      7 4 01 4829 OK → put code, taken
      8 4 01 [present tag 334] OK → put tag, taken
      8 4 01 [present tag 335] OK → put tag, refused: slot-taken
      7 4 02 5591 OK → put code, taken
      8 4 02 [present tag 336] OK → put tag, taken
      9 4 02 OK → clear slot, taken

      memory
        installer code 2468
        setting "key light" 1
        relay 1
          01 code 4829 or tag 334`),
    );
  });
  test("all-relay codes by number, in a range of their own", () => {
    const model = keypad(
      "slots 00..09, 90..92 all-relay per relay",
      "set all-relay 32 {slot} {code} OK",
      "clear all-relay 33 {slot} OK",
      "rewrite refused",
    );
    expect(
      transcript(model, "OK 2468 OK 32 90 9182 OK 32 90 9183 OK 32 91 9183 OK 32 05 9184 OK 7 4 91 4829 OK 9 4 91 OK 33 90 OK 33 05 OK"),
    ).toBe(
      lines(`
      OK 2468 OK → enter, taken
      32 90 9182 OK → set all-relay, taken
      32 90 9183 OK → set all-relay, refused: slot-taken
      32 91 9183 OK → set all-relay, taken
      32 05 9184 OK → set all-relay, refused: slot-kind
      7 4 91 4829 OK → put code, refused: slot-kind
      9 4 91 OK → clear slot, refused: slot-kind
      33 90 OK → clear all-relay, taken
      33 05 OK → clear all-relay, refused: slot-kind

      memory
        installer code 2468
        all-relay 91 code 9183
        setting "key light" 1`),
    );
  });
  test("what nobody knows is taken to be taken, and is known once it is cleared or written", () => {
    const model = keypad();
    const unknown = "installer code 2468\nrelay 1 { 01 unknown\n02 unknown }";
    expect(transcript(model, "OK 2468 OK 7 4 01 4829 OK 9 4 02 OK", memoryFrom(model, unknown))).toContain(
      lines(`
      memory
        installer code 2468
        relay 1
          01 code 4829`),
    );
    const refusing = keypad("rewrite refused");
    expect(transcript(refusing, "OK 2468 OK 7 4 01 4829 OK", memoryFrom(refusing, unknown))).toContain(
      "7 4 01 4829 OK → put code, refused: slot-taken",
    );
  });
  test("writing one half of a pair leaves doubt about the other", () => {
    const model = keypad("slots 00..09 per relay holds code or tag");
    const { memory } = replay(model, memoryFrom(model, "installer code 2468\nrelay 1 { 01 unknown }"), acts("OK 2468 OK 7 4 01 4829 OK"));
    expect(memory.slots.get("1/1")).toEqual({ key: "1/1", fires: "1", number: 1, code: "4829", unknown: true });
  });
  test("clear all empties slots and all-relay codes; with `wipes everything` all is as when new", () => {
    const keys = "OK 2468 OK 31 1357 1357 OK 7 4 01 4829 OK 32 9182 OK 6 4 20 OK 81 2 OK 70 1357 OK";
    expect(transcript(keypad(), keys)).toContain(
      lines(`
      70 1357 OK → clear all, taken

      memory
        installer code 1357
        setting "key light" 2
        relay 1 release 20s`),
    );
    const wiping = keypad(
      "clear all 70 {installer} OK wipes everything",
      "factory { installer code 2468\nrelay 2 release 5s { 03 code 7304 } }",
    );
    expect(transcript(wiping, keys)).toContain(
      lines(`
      70 1357 OK → clear all, taken

      memory
        installer code 2468
        setting "key light" 1
        relay 2 release 5s
        relay 2
          03 code 7304`),
    );
  });
});

test("a seventh model, of a kind that none of the samples is, works without touching code", () => {
  const model = modelOf(`
    model ruff-2 "Hash behind everything, places by letter keys, tags by their decimal number" {
      keys 0..5 X Y #
      relays 1 = X X, 2 = X Y
      slots 10..55 shared holds code with tag
      codes 3 | 4 digits installer 5 digits
      length free
      enter # # {installer} # [turn the key]
      put code {slot} {code} {relay} #
      put tag Y {slot} {relay} [present tag] [present tag] #
      clear slot {slot} # #
      set installer 0 0 {code} Y {code} #
      open both # {code} [present tag] #
      factory { installer code 54321 }
    }`);
  expect(
    transcript(
      model,
      "# # 54321 # [turn the key] 10 123 X Y # Y 10 X Y [present tag 7] [present tag 8] # Y 10 X Y [present tag 7] [present tag 7] # 20 4444 X X # 20 # #",
    ),
  ).toBe(
    lines(`
      # # 54321 # [turn the key] → enter, taken
      10 123 X Y # → put code, taken
      Y 10 X Y [present tag 7] [present tag 8] # → put tag, refused: values-differ
      Y 10 X Y [present tag 7] [present tag 7] # → put tag, taken
      20 4444 X X # → put code, taken
      20 # # → clear slot, taken

      memory
        installer code 54321
        relay 2
          10 code 123 with tag 7`),
  );
});
