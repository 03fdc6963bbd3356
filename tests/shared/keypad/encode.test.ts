/** What is typed for an operation: each kind of field, and what cannot be typed. */
import { describe, expect, test } from "vitest";
import { cannotEncode, encode, encodeCancel, encodeEnter, encodeLeave, encodeOpen } from "../../../shared/keypad/encode.ts";
import { actsIn, modelOf, written } from "../../support/keypad.ts";

const model = modelOf(`model typed "Every kind of field" {
  keys 0..9 A OK
  relays 1 = 4, 2 = A 1, 1+2 = 7
  slots 000..499 shared
  codes 4 digits
  release 1s..240s, toggle = 000
  cancel A A
  setting "light" 0..20 81 {value:2} OK
  enter OK {installer} OK [wait 3s]
  leave OK {installer} OK
  put code 7 {relay} A {slot} {code} {code} OK
  put tag 8 {relay} {slot} {tag:3+5} OK
  clear slot 9 {slot} OK
  clear tag 91 [present tag] OK
  set installer 31 {code} {code} OK
  set release 6 {relay} {seconds:3} OK
  open code {code} [hold the handle]
  open tag [present tag]
}`);
const force = { installer: "2468" };

describe("groups, one for each element of the template", () => {
  test.each([
    [{ operation: "put code", relay: "2", slot: 7, code: "0042" }, "7 A1 A 007 0042 0042 OK"],
    [{ operation: "put tag", relay: "1+2", slot: 499, tag: "8061262" }, "8 7 499 12300334 OK"],
    [{ operation: "clear slot", slot: 0 }, "9 000 OK"],
    [{ operation: "clear tag", tag: '"red dot"' }, '91 [present tag "red dot"] OK'],
    [{ operation: "set installer", code: "9753" }, "31 9753 9753 OK"],
    [{ operation: "set release", relay: "1", release: 5 }, "6 4 005 OK"],
    [{ operation: "set release", relay: "1", release: "toggle" }, "6 4 000 OK"],
    [{ operation: "set setting", label: "light", value: 3 }, "81 03 OK"],
  ] as const)("%j", (operation, keys) => {
    expect(written(encode(model, operation, force))).toBe(keys);
  });
  test("entering, leaving, getting out, opening", () => {
    expect(written(encodeEnter(model, "2468"))).toBe("OK 2468 OK [wait 3s]");
    expect(written(encodeLeave(model, force))).toBe("OK 2468 OK");
    expect(written(encodeCancel(model))).toBe("A A");
    expect(written(encodeOpen(model, "open code", { code: "4829" }))).toBe("4829 [hold the handle]");
  });
  test("what each group stands for, so that codes can be hidden", () => {
    expect(encode(model, { operation: "put code", relay: "2", slot: 7, code: "0042" }, force).map(group => group.is)).toEqual([
      "keys",
      "relay",
      "keys",
      "slot",
      "code",
      "code",
      "keys",
    ]);
    expect(encode(model, { operation: "set installer", code: "9753" }, force).map(group => group.is)).toEqual([
      "keys",
      "new installer",
      "new installer",
      "keys",
    ]);
    expect(encodeEnter(model, "2468").map(group => group.is)).toEqual(["keys", "installer", "keys", "hand"]);
  });
  test("a press for each key, an act of the hand with the tag that it needs", () => {
    expect(actsIn(encode(model, { operation: "clear tag", tag: "334" }, force))).toEqual([
      { press: "9" },
      { press: "1" },
      { hand: "present tag", tag: "334" },
      { press: "OK" },
    ]);
  });
});

describe("what cannot be typed, and why", () => {
  test.each([
    [{ operation: "clear all" }, 'the keypad has no operation "clear all"'],
    [{ operation: "put tag", relay: "1", slot: 1, tag: '"red dot"' }, "the tag's number is not known"],
    [{ operation: "put tag", relay: "1", slot: 1, tag: "72057594037927935" }, "the tag's number is not known"],
    [{ operation: "clear slot", slot: 1000 }, "{slot} does not fit into 3 digits"],
    [{ operation: "set setting", label: "light", value: 100 }, "{value} does not fit into 2 digits"],
    [{ operation: "put code", slot: 1, code: "4829" }, "{relay} is not known"],
  ] as const)("%j", (operation, reason) => {
    expect(cannotEncode(model, operation, force)).toBe(reason);
    expect(() => encode(model, operation, force)).toThrow(reason);
  });
  test("never with a code in the reason", () => {
    const few = modelOf(
      'model few "Few keys" {\n  keys 1..4 OK\n  slots 1..4 shared\n  codes 4 digits\n  enter OK {installer} OK\n  put code 1 {slot} {code} OK\n  clear slot 2 {slot} OK\n  open code {code}\n}',
    );
    expect(cannotEncode(few, { operation: "put code", slot: 1, code: "4829" }, {})).toBe(
      "{code} needs a key that the keypad does not have",
    );
  });
});
