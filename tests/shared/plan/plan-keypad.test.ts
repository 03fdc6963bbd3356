import { describe, expect, test } from "vitest";
import { entriesOf, modelOf, planOf, tryPlan } from "./keypads.ts";

/** Numbered slots for each relay, everything that a keypad can have. */
const numbered = (rules: string) => `
  relays 1 = 4, 2 = 5
  slots 01..09 per relay
  codes 4 | 5 digits
  length follows installer code
  ${rules}
  release 1s..99s, toggle = 00
  setting "key light" 0..2 factory 1 81 {value:1} OK
  keys 0..9 B OK
  enter OK {installer} OK shows "lamp steady"
  leave OK OK shows "lamp off"
  put code 7 {relay} {slot} {code} OK shows "one beep"
  put tag 8 {relay} {slot} [present tag] OK
  clear slot 9 {relay} {slot} OK
  set installer 31 {code} {code} OK
  set all-relay 32 {code} OK
  clear all-relay 33 OK
  set release 6 {relay} {seconds:2} OK
  clear all 70 {installer} OK
  open code {code}
  open all-relay {relay-number} B {code}
  open tag [present tag]
  factory { installer code 9753 }`;

const refusing = modelOf(numbered("rewrite replaces twins refused relength clears"));

describe("from factory-new", () => {
  test("everything is typed in the order of the text, the installer code in a session of its own", () => {
    const plan = planOf(
      refusing,
      refusing.factory,
      `installer code 86420
       all-relay code 91827
       setting "key light" 2
       relay 1 release 5s {
         03 code 48291
         01 tag 8061261
       }
       relay 2 { 01 code 11539 }`,
    );
    expect(entriesOf(plan)).toBe(
      [
        "1 set installer 86420",
        "--",
        "2 set all-relay 91827 after 1",
        "3 set setting key light 2",
        "4 set release 1 5",
        "5 put code 1/3 48291 after 1",
        "6 put tag 1/1 8061261",
        "7 put code 2/1 11539 after 1",
      ].join("\n"),
    );
    expect(plan.proof).toEqual({ reachesTarget: true, safeAtEveryEntry: true });
    expect(plan.tags).toEqual(["8061261"]);
    expect(plan.sessions.map(session => session.enter.map(group => group.text))).toEqual([
      ["OK", "9753", "OK"],
      ["OK", "86420", "OK"],
    ]);
    expect(plan.counts).toEqual({ entries: 7, keys: 72 });
  });

  test("nothing is typed where the text wants what is there", () => {
    const plan = planOf(refusing, refusing.factory, refusing.factory);
    expect([plan.sessions, plan.counts, plan.seconds]).toEqual([[], { entries: 0, keys: 0 }, 0]);
  });
});

describe("under twins refused", () => {
  const codes = ["1111", "2222", "3333", "4444", "5555", "6666", "7777"];
  const slots = (order: readonly number[]) =>
    `installer code 9753 relay 1 { ${order.map((code, slot) => `0${slot + 1} code ${codes[code]}`).join(" ")} }`;

  test.each([2, 3, 7])("a ring of %i costs one extra clear", length => {
    const ring = codes.slice(0, length).map((_, at) => at);
    const plan = planOf(refusing, slots(ring), slots([...ring.slice(1), 0]));
    expect(plan.counts.entries).toBe(length + 1);
    expect(plan.sessions[0]?.entries.map(entry => entry.because)).toEqual(["breaks a cycle", ...ring.map(() => undefined)]);
  });

  test("a chain needs no extra entry: each place is written when its code is free", () => {
    expect(entriesOf(planOf(refusing, slots([0, 1, 2]), slots([6, 0, 1])))).toBe(
      ["1 put code 1/1 7777", "2 put code 1/2 1111 after 1", "3 put code 1/3 2222 after 2"].join("\n"),
    );
  });
});

test("what cannot be planned says why", () => {
  const bare = modelOf(
    numbered("rewrite replaces twins refused relength clears")
      .replace(/clear slot.*\n/, "")
      .replace(/clear all 70.*\n/, ""),
  );
  expect(tryPlan(bare, "installer code 9753 relay 1 { 01 code 1234 }", "installer code 9753")).toMatchObject({
    cannot: "slot 1 of relay 1: the model has no entry that clears a place",
  });
});
