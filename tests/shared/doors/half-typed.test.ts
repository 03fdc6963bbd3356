/** A door and a supply at every keystroke: nothing fails, and no number is shown that is none. */
import { expect, test } from "vitest";
import { findingsOf } from "../../../shared/checks/run.ts";
import { doorSums } from "../../../shared/doors/door-sum.ts";
import { supplySums } from "../../../shared/doors/supply-sum.ts";
import { mullion, siteOf, today } from "../../support/fixture.ts";

const before = mullion`
  holder u1 "Unit 1" code 4829
  keypad gate "Gate" : tiny {
    installer code 6044
    relay 1 "Foot gate" { 1 u1 }
  }
`;
const doors = mullion`
  door "Foot gate" {
    lock motor lock 12 V AC 350 mA 1.5 A inrush resistive stays within 15 %
    contact closes to open
    cable 28.5 m 0.75 mm² class 5 at -4 °C
    exit lever
    route fire door
    release on alarm
    near people
  }
  supply cupboard "Riser cupboard" 13.8 V DC 3 A {
    battery 12 V 7 Ah for 4 h down to 10.8 V
    feeds "Foot gate", keypad gate
  }
`;

/** Every number in a value, at any depth; trees and texts are left out. */
function numbersIn(value: unknown, depth = 0): readonly number[] {
  if (typeof value === "number") return [value];
  if (typeof value !== "object" || value === null || depth > 6) return [];
  return Object.entries(value).flatMap(([key, one]) => (["node", "keypad", "relay"].includes(key) ? [] : numbersIn(one, depth + 1)));
}

function tryAll(text: string): void {
  const site = siteOf(`${before}\n${text}`);
  const messages = findingsOf(site, { today }).map(({ message }) => message);
  expect(messages.filter(message => /NaN|Infinity|undefined/.test(message))).toEqual([]);
  const numbers = numbersIn([doorSums(site), supplySums(site)]);
  expect(numbers.filter(number => !Number.isFinite(number))).toEqual([]);
}

test("typed from the beginning", () => {
  for (let length = 0; length <= doors.length; length++) tryAll(doors.slice(0, length));
});

test("with any one word left out", () => {
  const words = [...doors.matchAll(/\S+/g)];
  for (const { 0: word, index } of words) tryAll(doors.slice(0, index) + doors.slice(index + word.length));
});

test.each(["0", "-1", "999999999999", "0.0000000001", "1".repeat(400), "0,5", "0x1F", "2026-11-25"])("with %s for any number", number => {
  const numbers = [...doors.matchAll(/-?\d+(?:\.\d+)?/g)];
  for (const { 0: word, index } of numbers) tryAll(doors.slice(0, index) + number + doors.slice(index + word.length));
});

test("with Windows line breaks the sums are the same", () => {
  const amps = (text: string) => supplySums(siteOf(`${before}\n${text}`)).map(({ totalAmps, standingAmps }) => [totalAmps, standingAmps]);
  expect(amps(doors.replaceAll("\n", "\r\n"))).toEqual(amps(doors));
  expect(amps(doors)).toEqual([[0.35, 0]]);
});
