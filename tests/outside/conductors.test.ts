import { describe, expect, test } from "vitest";
import {
  copperResistivity,
  gaugeDiameter,
  gaugeSection,
  ohmsPerKmOfGauge,
  ohmsPerKmOfSection,
  temperatureFactor,
} from "../../shared/doors/conductor.ts";
import { dropAtCurrent, dropOfCoil } from "../../shared/doors/drop.ts";

// IEC 60228, plain annealed copper at 20 °C: mm², classes 1 and 2, class 5.
test.each([
  [0.5, 36.0, 39.0],
  [0.75, 24.5, 26.0],
  [1, 18.1, 19.5],
  [1.5, 12.1, 13.3],
  [2.5, 7.41, 7.98],
])("%d mm²", (mm2, fixed, flexible) => {
  expect([ohmsPerKmOfSection(mm2, 1), ohmsPerKmOfSection(mm2, 2), ohmsPerKmOfSection(mm2, 5)]).toEqual([fixed, fixed, flexible]);
});

test("a cross-section that the table does not have has no resistance", () => {
  expect(ohmsPerKmOfSection(0.6, 1)).toBe(undefined);
});

// ASTM B258; ohms per 1000 ft as published tables for solid wire at 20 °C have them (parent table: NBS Handbook 100, 1966).
test.each([
  [18, 1.0237, 0.823, 6.385],
  [20, 0.8118, 0.5176, 10.15],
  [22, 0.6438, 0.3255, 16.14],
  [24, 0.5106, 0.2047, 25.67],
])("%d AWG", (gauge, mm, mm2, ohmsPerKft) => {
  expect(gaugeDiameter(gauge)).toBeCloseTo(mm, 4);
  expect(gaugeSection(gauge)).toBeCloseTo(mm2, 4);
  expect(Math.abs((ohmsPerKmOfGauge(gauge) * 0.3048) / ohmsPerKft - 1)).toBeLessThan(0.0005);
});

// Published tables for stranded wire of a gauge, ohms per 1000 ft: about 2 % more than solid, which is what the sum of a door says of it.
test.each([
  [18, 6.505],
  [22, 16.45],
  [24, 26.15],
])("%d AWG, stranded", (gauge, ohmsPerKft) => {
  const more = ohmsPerKft / (ohmsPerKmOfGauge(gauge) * 0.3048) - 1;
  expect(more).toBeGreaterThan(0.015);
  expect(more).toBeLessThan(0.025);
});

// Factors of IEC 60228 back to 20 °C: another convention than ours, at most 0.26 % from it at 70 °C, and printed with three places.
test.each([
  [5, 1.064],
  [10, 1.042],
  [15, 1.02],
  [25, 0.98],
  [30, 0.962],
  [40, 0.926],
  [50, 0.893],
  [70, 0.833],
])("warmth: %d °C", (celsius, factor) => {
  expect(Math.abs(temperatureFactor(celsius) * factor - 1)).toBeLessThan(0.0035);
});

describe("volts lost", () => {
  // A training page on NEC chapter 9 table 8: 100 ft one way, 16 AWG at 4.99 ohms per 1000 ft (75 °C), 4 A.
  test("in 100 ft of 16 AWG", () => {
    const volts = dropAtCurrent({ metres: 30.48, ohmsPerKm: 4.99 / 0.3048 }, 4);
    expect(volts).toBeCloseTo(3.992, 6);
    // The page goes on: 16.6 % of 24 V.
    expect((100 * volts) / 24).toBeCloseTo(16.6, 1);
  });

  // A forum's example: 5 m one way of 2.5 mm², 20 A, by the resistivity of copper (IEC 60028).
  test.each([
    [20, 1.38],
    [30, 1.43],
  ])("in 5 m of 2.5 mm² at %d °C", (celsius, volts) => {
    const ohmsPerKm = ((1000 * copperResistivity) / 2.5) * temperatureFactor(celsius);
    expect(dropAtCurrent({ metres: 5, ohmsPerKm }, 20)).toBeCloseTo(volts, 2);
  });

  // Computed by hand: a 12 V 0.5 A coil is 24 ohms; 50 m of 10 ohms per kilometre are 1 ohm, so that 12 V leave 11.52 V.
  test("for a coil, which takes less when it gets less", () => {
    expect(dropOfCoil({ metres: 50, ohmsPerKm: 10 }, 12, 12, 0.5)).toBeCloseTo(0.48, 9);
    expect(dropAtCurrent({ metres: 50, ohmsPerKm: 10 }, 0.5)).toBeCloseTo(0.5, 9);
  });
});
