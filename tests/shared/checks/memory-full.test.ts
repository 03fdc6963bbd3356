import { expect, test } from "vitest";
import { findingsOf } from "../../../shared/checks/run.ts";
import { mullion, siteOf, today } from "../../support/fixture.ts";
import { loose, shared, two } from "../../support/models.ts";

/** Codes of a length, each two places from the next: 1 in the first place, then the number twice over. */
const codes = (count: number, digits: number) =>
  Array.from(
    { length: count },
    (_, index) =>
      `${String(index * 37 + 11)
        .padStart(digits, "3")
        .slice(-digits)}`,
  );

function found(text: string): readonly string[] {
  return findingsOf(siteOf(text), { today }).flatMap(({ code, severity, message }) =>
    code === "memory-full" ? `${severity}: ${message}` : [],
  );
}

const holders = (count: number, digits: number) =>
  codes(count, digits)
    .map((code, index) => `holder h${index} "H${index}" code ${code}`)
    .join("\n");
const entries = (count: number, from: number, width: number) =>
  Array.from({ length: count }, (_, index) => `${width ? `${String(index + from).padStart(width, "0")} ` : ""}h${index}`).join("\n");

test.each([
  [54, []],
  [55, ["warning: 5 of the 60 places of Gate are left"]],
  [60, ["warning: 0 of the 60 places of Gate are left"]],
  [61, ["error: 61 are wanted in Gate, which has 60 places"]],
])("%d in a memory of 60 that finds its own places", (count, findings) => {
  expect(
    found(mullion`
      ${loose}
      ${holders(count, 5)}
      keypad gate "Gate" : loose {
        installer code 60441
        relay 1 "Foot gate" { ${entries(count, 0, 0)} }
        relay 2 spare
      }
    `),
  ).toEqual(findings);
});

test("each relay has a memory of its own where places belong to relays", () => {
  expect(
    found(mullion`
      ${two}
      ${holders(58, 4)}
      keypad gate "Gate" : two {
        installer code 6044
        relay 1 "Foot gate" { ${entries(56, 1, 2)} }
        relay 2 "Vehicle gate" { 01 h57 }
      }
    `),
  ).toEqual(["warning: 4 of the 60 places of Foot gate are left"]);
});

test("each kind has a memory of its own where ranges are kept; a range of four is not watched", () => {
  expect(
    found(mullion`
      ${shared}
      ${holders(95, 4)}
      keypad gate "Gate" : shared {
        installer code 604418
        all-relay 990 code h94
        relay 1 "Foot gate" { ${entries(94, 1, 3)} }
        relay 2 spare
      }
    `),
  ).toEqual(["warning: 5 of the 99 places of Gate for codes are left"]);
});
