import { expect, test } from "vitest";
import type { KeyGroup } from "../../../shared/keypad/memory.ts";
import { longestPause, minutesOf, runSeconds } from "../../../shared/plan/time.ts";
import { modelOf, planOf } from "./keypads.ts";

const model = (more: string, leave = "leave OK OK") =>
  modelOf(`
    slots 1..9 per relay
    codes 4 digits
    rewrite replaces
    ${more}
    enter OK {installer} OK
    ${leave}
    put code 7 {slot} {code} OK
    put tag 8 {slot} [present tag] [wait 3s] OK
    clear slot 9 {slot} OK
    open code {code}
    open tag [present tag]
    keys 0..9 OK
    factory { installer code 9753 }`);
const wanted = "installer code 9753 relay 1 { 1 code 1111 2 tag 77 }";

test("a preparation an entry, every key at the rate of complex codes, a point for a tag, settling and waits", () => {
  const plan = planOf(model("settle 15s"), "installer code 9753", wanted);
  // Keys: enter 6, code 7, tag 3, leave 2.
  expect(plan.seconds).toBeCloseTo(15 + 18 * 0.75 + 2 * 1.35 + 1.1 + 3, 6);
});

test("a keypad without keys to leave is left by waiting", () => {
  const plan = planOf(model("lapse 30s", ""), "installer code 9753", wanted);
  expect(plan.seconds).toBeCloseTo(16 * 0.75 + 2 * 1.35 + 1.1 + 3 + 30, 6);
});

test("nothing to type takes no time", () => {
  expect(runSeconds(model("settle 15s"), [])).toBe(0);
});

test.each([
  [0, 0],
  [1, 1],
  [60, 1],
  [60.1, 2],
])("%s seconds are %s minutes", (seconds, minutes) => {
  expect(minutesOf(seconds)).toBe(minutes);
});

test("the longest pause is what the hand does between two keys", () => {
  const plan = planOf(model(""), "installer code 9753", wanted);
  const groups = plan.sessions[0]?.entries.map(entry => entry.groups) as readonly (readonly KeyGroup[])[];
  expect(groups.map(longestPause)).toEqual([0, 1.1 + 3]);
});
