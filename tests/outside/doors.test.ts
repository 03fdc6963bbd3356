/** Doors and supplies as texts, worked out from end to end, against values from elsewhere. */
import { expect, test } from "vitest";
import { doorSum } from "../../shared/doors/door-sum.ts";
import { supplySum } from "../../shared/doors/supply-sum.ts";
import { mullion, siteOf } from "../support/fixture.ts";

const wired = (lock: string, cable: string, battery = "battery 12 V 7 Ah") =>
  siteOf(mullion`
    holder u1 "Unit 1" code 4829
    keypad gate "Gate" : tiny {
      installer code 6044
      relay 1 "Foot gate" { 1 u1 }
    }
    keypad back "Back" : tiny {
      installer code 6045
      relay 1 "Back" { 1 u1 }
    }
    door "Foot gate" {
      lock ${lock}
      cable ${cable}
    }
    door "Back" { lock strike 12 V 750 mA fail-secure }
    supply cupboard "Riser cupboard" 12 V 3 A {
      ${battery}
      feeds "Foot gate"
    }
    supply porch "Porch" 13.8 V 3 A {
      battery 12 V 12 Ah for 24 h
      feeds "Foot gate", "Back"
    }
  `);

// Computed apart from this code with the resistances of IEC 60228 (class 5, and class 1 for 1.5 mm²) and of ASTM B258's wire at
// 17.241 ohm mm²/km; a hundred feet are 30.48 m.
test.each([
  ["500 mA", "30 m 0.5 mm2 class 5", 1.17],
  ["500 mA", "50 m 0.75 mm2 class 5", 1.3],
  ["0.5 A", "50 m 1 mm2 class 5", 0.975],
  ["1 A", "50 m 1.5 mm²", 1.21],
  ["0.5 A", "30.48 m 22 AWG", 1.614],
  ["250 mA", "30.48 m 24 AWG", 1.2835],
])("%s over %s", (current, cable, volts) => {
  const sum = doorSum(wired(`strike 12 V ${current} fail-secure`, cable), "Foot gate");
  expect(sum?.onMains?.lost.dropVolts).toBeCloseTo(volts, 3);
  expect(sum?.onMains?.lost.volts).toBeCloseTo(12 - volts, 3);
});

// The first of them is 9.75 % of 12 V.
test("in per cent of the supply", () => {
  const lost = doorSum(wired("strike 12 V 0.5 A fail-secure", "30 m 0.5 mm2 class 5"), "Foot gate")?.onMains?.lost;
  expect(((lost?.dropVolts ?? 0) * 100) / 12).toBeCloseTo(9.75, 6);
});

// A plain coil behind a cable divides the volts: V R / (R + r), by Ohm's law. R = 12 V / 0.5 A, r = 2 × 50 m × 24.5 ohms per kilometre.
test("a coil takes less when it gets less, and loses less on the way", () => {
  const sum = doorSum(wired("strike 12 V 0.5 A fail-secure resistive", "50 m 0.75 mm2"), "Foot gate")?.onMains;
  expect(sum?.lost.volts).toBeCloseTo((12 * 24) / (24 + 2.45), 9);
  expect(sum?.asConstant.volts).toBeCloseTo(12 - 0.5 * 2.45, 9);
});

// Lead-acid cells: six in a battery of 12 V, discharged at 1.8 V each (common practice, no source): 10.8 V, and less where the text says so.
test.each([
  ["battery 12 V 7 Ah", 10.8],
  ["battery 24 V 7 Ah", 21.6],
  ["battery 12 V 7 Ah down to 10.5 V", 10.5],
])("the end of a %s", (battery, volts) => {
  expect(supplySum(wired("bolt 12 V 1 A", "1 m 2.5 mm2", battery), "cupboard")?.endVolts).toBeCloseTo(volts, 9);
});

// BS 5839-1, Annex E, worked example: 0.25 A all the time for 24 h, then 0.75 A for half an hour; D = 1.75; 8.3203 Ah.
test("a battery for what is always on and what is on for half an hour", () => {
  const needed = supplySum(wired("bolt 12 V 250 mA", "1 m 2.5 mm2"), "porch")?.batterySum?.needed;
  expect([needed?.d, needed?.ageing, needed?.openingHours]).toEqual([1.75, 1.25, 0.5]);
  expect(needed?.ampHours).toBeCloseTo(8.3203, 4);
});

// Peukert's law in its form for a rated time, computed apart from this code: 7 Ah at 20 h, 1 A, exponent 1.2.
test("how long a battery lasts", () => {
  const lasts = supplySum(wired("bolt 12 V 1 A", "1 m 2.5 mm2"), "cupboard")?.batterySum?.lasts;
  expect(lasts?.hours).toBeCloseTo(5.674, 3);
  expect([lasts?.ratedHours, lasts?.exponent]).toEqual([20, 1.2]);
});

// An example from memory, computed apart from this code: 200 Ah at 20 h, 20 A, exponent 1.2.
test("with another capacity, and with parameters of one's own", () => {
  const site = wired("bolt 12 V 20 A", "1 m 2.5 mm2", "battery 12 V 200 Ah");
  expect(supplySum(site, "cupboard")?.batterySum?.lasts?.hours).toBeCloseTo(8.7055, 4);
  const own = supplySum(site, "cupboard", { ratedHours: 1, exponent: 1.3 })?.batterySum?.lasts;
  // 1 h × (200 / (20 × 1))^1.3 would be 19.95 h: more than the battery holds at the current that it is rated for.
  expect(own?.hours).toBeCloseTo(10, 9);
});
