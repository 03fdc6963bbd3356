import { describe, expect, test } from "vitest";
import { BrokenInvariant } from "../../shared/must.ts";
import { frame26, printings, readFrame26 } from "../../shared/tags/frame.ts";
import published from "./published.json";

/** Values: unit tests of the public repository jessety/wiegand-encoder (MIT) and published examples, as each row says; the rest is computed. */
describe("the open 26-bit frame", () => {
  test.each(published.wiegand26)("$printed ($outside)", ({ facility, card, dec24, hex24, dec8, printed, bits26 }) => {
    expect(frame26({ facility, number: card })).toBe(bits26);
    expect(readFrame26(bits26)).toEqual({ facility, number: card });
    const all = printings(String(dec24));
    expect([all.eight, all.facilityNumber, all.hex]).toEqual([dec8, printed, hex24]);
  });

  test.each([
    ["1".padEnd(26, "0"), "left parity"],
    ["0".repeat(26), "right parity"],
    ["0".repeat(25), "length"],
    [`${"0".repeat(25)}2`, "digits"],
  ])("%s is refused: %s", (bits, problem) => {
    expect(readFrame26(bits)).toBe(problem);
  });

  test.each([
    { facility: 256, number: 0 },
    { facility: 0, number: 65_536 },
    { facility: -1, number: 0 },
    { facility: 0, number: 1.5 },
  ])("$facility,$number does not fit", tag => {
    expect(() => frame26(tag)).toThrow(BrokenInvariant);
  });

  test("every single flipped bit is noticed; of the 325 double flips 156 are not", () => {
    const bits = frame26({ facility: 90, number: 324 });
    const flipped = (...at: number[]) => [...bits].map((bit, i) => (at.includes(i) ? (bit === "1" ? "0" : "1") : bit)).join("");
    let single = 0;
    let double = 0;
    for (let i = 0; i < 26; i++) {
      if (typeof readFrame26(flipped(i)) === "object") single++;
      for (let j = i + 1; j < 26; j++) if (typeof readFrame26(flipped(i, j)) === "object") double++;
    }
    expect([single, double]).toEqual([0, 156]);
  });
});

/** Values: a supplier page (unnamed) gives all six printings of the first; the others as far as published, the rest recomputed. */
test.each(published.tagNumbers)("the printings of $hex40", ({ hex40, dec40, dec10_8H10D, dec8_6H8D, w26_2H4H, w34_4H4H }) => {
  expect(BigInt(`0x${hex40}`).toString()).toBe(dec40);
  const { ten, eight, facilityNumber, halves } = printings(dec40);
  expect([ten, eight, facilityNumber, halves]).toEqual([dec10_8H10D, dec8_6H8D, w26_2H4H, w34_4H4H]);
});
