/** One entry at a time: what it changes, and why the keypad refuses it, with the place that it was about. */
import { describe, expect, test } from "vitest";
import { apply } from "../../../shared/keypad/apply.ts";
import { draftOf, freeze } from "../../../shared/keypad/draft.ts";
import type { Memory, Operation } from "../../../shared/keypad/memory.ts";
import type { Model } from "../../../shared/keypad/model.ts";
import { memoryFrom, modelOf } from "../../support/keypad.ts";
import { dumped, heldIn } from "../../support/second-keypad.ts";

/** Lines in place of these, by their first word, and more. */
function keypad(...lines: readonly string[]): Model {
  const usual = [
    "keys 0..9 A OK",
    "relays 1 = 1, 2 = 2, 1+2 = 3",
    "slots 1..9 per relay",
    "codes 4 | 5 digits",
    "length follows installer code",
    "rewrite replaces",
    "twins refused",
    "relength clears",
    "release 2s..9s",
  ];
  const first = (line: string) => line.split(" ")[0];
  const kept = usual.filter(line => !lines.some(other => first(other) === first(line)));
  return modelOf(`model tried "One entry at a time" {
    ${[...kept, ...lines].join("\n")}
    enter OK {installer} OK
    open code {code}
    ${lines.some(line => line.startsWith("put tag")) ? "open tag [present tag]" : ""}
    ${lines.some(line => line.startsWith("set all-relay")) ? "open all-relay {relay-number} A {code}" : ""}
    factory { installer code 9753 }
  }`);
}

const perRelay = [
  "put code 1 {relay} {slot} {code} OK",
  "put tag 2 {relay} {slot} [present tag] OK",
  "clear slot 9 {relay} {slot} OK",
  "clear code 5 {relay} {code} OK",
  "set installer 3 {code} OK",
  "set all-relay 4 {code} OK",
  "clear all-relay 6 OK",
  "set release 7 {relay} {seconds:1} OK",
  "clear all 8 OK",
];

function tried(model: Model, memory: string | Memory, operation: Operation): { readonly refused?: object; readonly holds: string } {
  const draft = draftOf(typeof memory === "string" ? memoryFrom(model, memory) : memory);
  const refused = apply(model, draft, operation);
  const after = freeze(draft);
  const unknown = [
    ...[...after.slots.values()].filter(slot => slot.unknown).map(({ key }) => `unknown ${key}`),
    ...[...after.allRelay].filter(([, stored]) => stored.unknown).map(([key]) => `unknown all-relay ${key}`),
  ];
  const held = dumped(model, heldIn(after)).filter(line => /^(?:place|all-relay|release)/.test(line));
  return { ...(refused ? { refused } : {}), holds: [...held, ...unknown].join("; ").replaceAll(" undefined", " –") };
}

describe("a refusal says the place", () => {
  const model = keypad(...perRelay);
  test.each<[string, Operation, object]>([
    ["no such slot", { operation: "put code", relay: "1", slot: 11, code: "4829" }, { kind: "slot-range", slot: 11, relay: "1" }],
    ["no such relay", { operation: "put code", relay: "5", slot: 1, code: "4829" }, { kind: "unknown-keys", slot: 1, relay: "5" }],
    ["another length", { operation: "put code", relay: "1", slot: 1, code: "48291" }, { kind: "unknown-keys", slot: 1, relay: "1" }],
    ["a twin", { operation: "put code", relay: "2", slot: 2, code: "1111" }, { kind: "twin", slot: 2, relay: "2" }],
    ["a twin of the all-relay code", { operation: "put code", relay: "2", slot: 2, code: "2222" }, { kind: "twin", slot: 2, relay: "2" }],
    ["no such operation", { operation: "clear tag", tag: "77" }, { kind: "unknown-keys" }],
    ["no such operation, with a relay", { operation: "clear tag", relay: "1", tag: "77" }, { kind: "unknown-keys", relay: "1" }],
    ["all-relay of another length", { operation: "set all-relay", code: "48291" }, { kind: "unknown-keys" }],
    ["all-relay that is in a slot", { operation: "set all-relay", code: "1111" }, { kind: "twin" }],
    ["an installer code of no length of the model's", { operation: "set installer", code: "123456" }, { kind: "unknown-keys" }],
    ["too short a release", { operation: "set release", relay: "1", release: 1 }, { kind: "setting-range", relay: "1" }],
    ["too long a release", { operation: "set release", relay: "1", release: 10 }, { kind: "setting-range", relay: "1" }],
    ["a toggle that there is none of", { operation: "set release", relay: "1", release: "toggle" }, { kind: "setting-range", relay: "1" }],
  ])("%s", (_, operation, refusal) => {
    const before = "installer code 9753 all-relay code 2222 relay 1 { 1 code 1111 }";
    const { refused, holds } = tried(model, before, operation);
    expect(refused).toEqual(refusal);
    expect(holds).toBe("all-relay  2222; place 1/1 fires 1 code 1111 tag –");
  });
});

describe("what is taken", () => {
  const model = keypad(...perRelay);
  test.each([2, 9])("a release of %i s, at the end of the range", release => {
    expect(tried(model, "installer code 9753", { operation: "set release", relay: "2", release })).toEqual({
      holds: `release 2 ${release}`,
    });
  });
  test("the same code in its own place again", () => {
    const put: Operation = { operation: "put code", relay: "1", slot: 1, code: "1111" };
    expect(tried(model, "installer code 9753 relay 1 { 1 code 1111 }", put)).toEqual({ holds: "place 1/1 fires 1 code 1111 tag –" });
  });
  test("an all-relay code in place of another, and of itself", () => {
    const set = (code: string) => tried(model, "installer code 9753 all-relay code 2222", { operation: "set all-relay", code });
    expect([set("3333"), set("2222")]).toEqual([{ holds: "all-relay  3333" }, { holds: "all-relay  2222" }]);
  });
  test("clearing a code at one relay leaves it at another, and the all-relay code", () => {
    const free = keypad(...perRelay, "twins all fire");
    const before = "installer code 9753 all-relay code 1111 relay 1 { 1 code 1111 } relay 2 { 1 code 1111 }";
    expect(tried(free, before, { operation: "clear code", relay: "1", code: "1111" }).holds).toBe(
      "all-relay  1111; place 2/1 fires 2 code 1111 tag –",
    );
  });
  test("clearing a code, no relay said, takes it wherever it is, and nothing else", () => {
    const free = keypad(...perRelay.filter(line => !line.startsWith("clear code")), "clear code 5 {code} OK", "twins all fire");
    const before = "installer code 9753 all-relay code 1111 relay 1 { 1 code 1111 2 code 3333 } relay 2 { 1 code 1111 }";
    expect(tried(free, before, { operation: "clear code", code: "1111" }).holds).toBe("place 1/2 fires 1 code 3333 tag –");
    expect(tried(free, before, { operation: "clear code", code: "3333" }).holds).toBe(
      "all-relay  1111; place 1/1 fires 1 code 1111 tag –; place 2/1 fires 2 code 1111 tag –",
    );
  });
  test("the all-relay code is cleared where the keys say nothing, and everything by clear all", () => {
    const before = "installer code 9753 all-relay code 2222 relay 1 { 1 code 1111 2 tag 77 }";
    expect(tried(model, before, { operation: "clear all-relay" }).holds).toBe(
      "place 1/1 fires 1 code 1111 tag –; place 1/2 fires 1 code – tag 77",
    );
    expect(tried(model, before, { operation: "clear all" }).holds).toBe("");
  });
});

describe("under rewrite refused", () => {
  const pairs = keypad(...perRelay, "rewrite refused", "slots 1..9 shared holds code or tag");
  test("the other half of a pair has room, and one that fires another relay has not", () => {
    const before = "installer code 9753 relay 1 { 1 code 1111 }";
    const put = (relay: string): Operation => ({ operation: "put tag", relay, slot: 1, tag: "77" });
    expect(tried(pairs, before, put("1")).holds).toBe("place /1 fires 1 code 1111 tag 77");
    expect(tried(pairs, before, put("2")).refused).toEqual({ kind: "slot-taken", slot: 1, relay: "2" });
  });
  test("what nobody knows is taken to be taken", () => {
    const put: Operation = { operation: "put code", relay: "1", slot: 1, code: "1111" };
    expect(tried(pairs, "installer code 9753 relay 1 { 1 unknown }", put).refused).toEqual({ kind: "slot-taken", slot: 1, relay: "1" });
  });
});

describe("a new length", () => {
  const before = "installer code 9753 all-relay code 2222 relay 1 { 1 code 1111 2 tag 77 3 unknown }";
  const longer: Operation = { operation: "set installer", code: "97531" };
  test("takes codes and all-relay codes, not tags; what nobody knows may be a tag", () => {
    expect(tried(keypad(...perRelay), before, longer).holds).toBe(
      "place 1/2 fires 1 code – tag 77; place 1/3 fires 1 code – tag –; unknown 1/3",
    );
  });
  test("empties what nobody knows where only codes can be", () => {
    const codesOnly = keypad(...perRelay.filter(line => !line.startsWith("put tag")));
    expect(tried(codesOnly, "installer code 9753 relay 1 { 1 unknown }", longer).holds).toBe("");
    const kept = keypad(...perRelay, "slots 1..4 codes, 5..9 per relay");
    expect(tried(kept, "installer code 9753 relay 1 { 1 unknown 5 unknown }", longer).holds).toBe(
      "place 1/5 fires 1 code – tag –; unknown 1/5",
    );
  });
  test("leaves the tag of a pair", () => {
    const pairs = keypad(...perRelay, "slots 1..9 per relay holds code or tag");
    expect(tried(pairs, "installer code 9753 relay 1 { 1 code 1111 or tag 77 }", longer).holds).toBe("place 1/1 fires 1 code – tag 77");
  });
  test("of the same number of digits takes nothing, and where they are kept none does", () => {
    const same: Operation = { operation: "set installer", code: "8642" };
    const all =
      "all-relay  2222; place 1/1 fires 1 code 1111 tag –; place 1/2 fires 1 code – tag 77; place 1/3 fires 1 code – tag –; unknown 1/3";
    expect(tried(keypad(...perRelay), before, same).holds).toBe(all);
    expect(tried(keypad(...perRelay, "relength keeps what was stored"), before, longer).holds).toBe(all);
  });
  test("after one that nobody knew leaves nobody sure of any code", () => {
    const unsure = "all-relay code 2222 relay 1 { 1 code 1111 2 tag 77 }";
    expect(tried(keypad(...perRelay), unsure, longer).holds).toBe(
      "all-relay  ; place 1/1 fires 1 code – tag –; place 1/2 fires 1 code – tag 77; unknown 1/1; unknown all-relay ",
    );
  });
  test("set by an entry of its own counts from the factory's, and takes codes as well", () => {
    const model = keypad(...perRelay, "length set by entry", "set length 40 {digits:1} OK");
    const set = (digits: number, memory: string) => tried(model, memory, { operation: "set length", digits });
    expect(set(5, "installer code 9753 code length 4 relay 1 { 1 code 1111 2 tag 77 }").holds).toBe("place 1/2 fires 1 code – tag 77");
    expect(set(4, "installer code 9753 code length 4 relay 1 { 1 code 1111 }").holds).toBe("place 1/1 fires 1 code 1111 tag –");
    expect(set(6, "installer code 9753 code length 4").refused).toEqual({ kind: "setting-range" });
  });
});
