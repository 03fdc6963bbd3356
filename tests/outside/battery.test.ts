import { expect, test } from "vitest";
import { capacityNeeded, hoursOfOneHourForm, hoursOfRated, largeLoadFactor } from "../../shared/doors/battery.ts";

// BS 5839-1, Annex E, worked example: 0.25 A for 24 h, then 0.75 A for half an hour; D = 1.75.
test("capacity with a heavy load at the end", () => {
  const [quiescent, load] = [
    { amps: 0.25, hours: 24 },
    { amps: 0.75, hours: 0.5 },
  ];
  expect(largeLoadFactor(quiescent, load)).toBe(1.75);
  expect(capacityNeeded(quiescent, load, 1.75)).toBeCloseTo(8.3203, 4);
});

test("a light load has a D of 1", () => {
  expect(largeLoadFactor({ amps: 0.25, hours: 24 }, { amps: 0.1, hours: 0.5 })).toBe(1);
});

// The older form of the same, 1.25 (I1 T1 + I2): its bare I2 is D = 2 for half an hour. Its source prints 1.874.
test("capacity in the older form", () => {
  expect(capacityNeeded({ amps: 0.05, hours: 24 }, { amps: 0.3, hours: 0.5 }, 2)).toBeCloseTo(1.875, 6);
});

// Published examples of Peukert's law in its form for one hour: amp hours, amps, exponent, hours.
test.each([
  [100, 5, 1.2, 14.496],
  [250, 20, 1.3, 5.0886],
])("%d Ah at %d A by the form for one hour", (ampHours, amps, exponent, hours) => {
  expect(Math.abs(hoursOfOneHourForm(ampHours, amps, exponent) / hours - 1)).toBeLessThan(0.0001);
});

// The form for rated hours, 20 h: the first is an example from memory, both were computed apart from this code.
test.each([
  [200, 20, 8.7055],
  [7, 1, 5.674],
])("%d Ah at 20 h, %d A", (ampHours, amps, hours) => {
  expect(hoursOfRated(ampHours, amps, 20, 1.2)).toBeCloseTo(hours, 3);
});

test("below the rated current a battery does not hold more than its label", () => {
  expect(hoursOfRated(7, 0.1)).toBeCloseTo(70, 9);
  expect(hoursOfRated(7, 0.35)).toBeCloseTo(20, 9);
});
