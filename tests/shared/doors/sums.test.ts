/** The sum of a door and the budget of a supply, as hover and papers show them. */
import { expect, test } from "vitest";
import { doorSum, doorSums } from "../../../shared/doors/door-sum.ts";
import { supplySum, supplySums } from "../../../shared/doors/supply-sum.ts";
import { ampsWords, cableWords, heldAgainst, rounded, voltsWords } from "../../../shared/doors/words.ts";
import { mullion, siteOf } from "../../support/fixture.ts";

const wired = mullion`
  holder u1 "Unit 1" code 4829
  keypad gate "Gate" : tiny {
    installer code 6044
    relay 1 "Foot gate" release 5s {
      1 u1
    }
  }
  door "Foot gate" {
    lock strike 12 V 350 mA fail-secure
    cable 28 m 0.75 mm2
  }
  supply cupboard "Riser cupboard" 13.8 V 3 A {
    battery 12 V 7 Ah for 4 h
    feeds "Foot gate", keypad gate
  }
`;

// By hand: 2 × 28 m × 24.5 Ω/km = 1.372 Ω; × 0.35 A = 0.4802 V; the battery ends at 6 × 1.8 V = 10.8 V.
test("a strike at the end of 28 m of 0.75 mm²", () => {
  const sum = doorSum(siteOf(wired), "Foot gate");
  expect(sum?.cable && cableWords(sum.cable)).toBe("2 × 28 m of 0.75 mm² at 20 °C");
  expect(sum?.cable?.ohms).toBeCloseTo(1.372, 9);
  expect(sum?.onMains?.lost.dropVolts).toBeCloseTo(0.4802, 9);
  expect(sum?.onMains?.lost.volts).toBeCloseTo(13.3198, 9);
  expect(sum?.atBatteryEnd?.supplyVolts).toBeCloseTo(10.8, 9);
  expect(sum?.atBatteryEnd?.lost.volts).toBeCloseTo(10.3198, 9);
  expect(sum?.verdicts.map(({ is, by }) => `${is} by ${by}`)).toEqual(["low by battery", "high by mains"]);
  expect(sum?.missing).toEqual([]);
});

test("a supply: what it feeds, and what of it is not known", () => {
  const sum = supplySum(siteOf(wired), "cupboard");
  expect(sum?.feeds.map(({ label, takes, amps }) => [label, takes, amps])).toEqual([
    ["Foot gate", "opening", 0.35],
    ["Gate", "always", undefined],
  ]);
  expect(sum?.totalAmps).toBeCloseTo(0.35, 9);
  expect(sum?.spareAmps).toBeCloseTo(2.65, 9);
  expect(sum?.unknown).toEqual(["Gate (tiny does not say what it draws)"]);
});

test("a keypad that has its door's label is told from it", () => {
  const sum = supplySum(siteOf(wired.replace('keypad gate "Gate"', 'keypad gate "Foot gate"')), "cupboard");
  expect(sum?.feeds.map(({ label }) => label)).toEqual(["Foot gate", "keypad Foot gate"]);
  expect(sum?.unknown).toEqual(["keypad Foot gate (tiny does not say what it draws)"]);
});

test("without doors and supplies there is no sum", () => {
  const site = siteOf(mullion`
    holder u1 "Unit 1" code 4829
  `);
  expect([doorSums(site), supplySums(site)]).toEqual([[], []]);
});

test("numbers in words", () => {
  expect([rounded(12, 2), rounded(-0.001, 2), rounded(10.8, 2), rounded(100, 0)]).toEqual(["12", "0", "10.8", "100"]);
  expect([ampsWords(0.35), ampsWords(0.04375), ampsWords(1.5), ampsWords(0)]).toEqual(["350 mA", "43.8 mA", "1.5 A", "0 A"]);
  expect(heldAgainst(voltsWords, 13.2004, 13.2)).toEqual(["13.2004 V", "13.2 V"]);
});
