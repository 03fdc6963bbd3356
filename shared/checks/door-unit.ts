/** A number about a door, a supply or a keypad's electrics that is not what its place takes. */
import type { MisreadAt } from "../doors/misread.ts";
import { misreadOf } from "../doors/misread.ts";
import type { Unit } from "../doors/quantities.ts";
import { numberOf } from "../doors/quantities.ts";
import { metresOfFeet, unitMeant } from "../doors/unit-slips.ts";
import type { Fix } from "../finding.ts";
import type { Found } from "./check.ts";
import { at, check, mullion } from "./check.ts";
import { replace } from "./edits.ts";
import { noKeypad } from "./touched.ts";

interface Misfit extends Found {
  readonly misread: MisreadAt;
}

export const doorUnit = check({
  code: "door-unit",
  severity: "error",
  explain: {
    what: "A number of a door, a supply or a model's electrics with a wrong unit or none, said twice, or out of range.",
    why: "350 may be milliamperes or somebody's slip; what a lock gets is not worked out from a guess. Volts are V, amperes A or mA, a cable's length m and its cross-section mm2 or AWG, temperature C, a battery Ah and h. No sheet is held back by it.",
    triggers: mullion`
      holder u1 "Unit 1" code 4829

      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Foot gate" release 5s {
          1 u1
        }
      }

      door "Foot gate" {
        lock strike 12 V 350 fail-secure
                       //^^^ door-unit
      }
    `,
    quiet: mullion`
      holder u1 "Unit 1" code 4829

      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Foot gate" release 5s {
          1 u1
        }
      }

      door "Foot gate" {
        lock strike 12 V 350 mA fail-secure
      }
    `,
  },
  *find(site): Iterable<Misfit> {
    for (const misread of misreadOf(site)) yield { ...at(misread.file, misread), keypads: noKeypad, misread };
  },
  message: ({ misread }) => words(misread),
  fixes: ({ misread }): readonly Fix[] => {
    if (misread.is === "lacks") return [];
    const { value, unit } = misread.quantity;
    // `1,200 mA` may be one ampere and a bit, written with a comma for thousands.
    if (misread.is === "comma" && /^\d+,\d+$/.test(value.text) && !/,\d{3}$/.test(value.text)) {
      const point = value.text.replace(",", ".");
      return [{ title: `Change to ${point}`, edits: [replace(misread.file, value, point)], preferred: true }];
    }
    const metres = metresIn(misread);
    if (metres !== undefined)
      return [{ title: `Change to ${metres} m`, edits: [replace(misread.file, misread, `${metres} m`)], preferred: true }];
    const meant = misread.is === "no such unit" && unit ? unitMeant(unit.text) : undefined;
    if (meant === undefined || !unit) return [];
    const space = unit.start === value.end ? " " : "";
    return [{ title: `Change to ${meant}`, edits: [replace(misread.file, unit, `${space}${meant}`)], preferred: true }];
  },
});

function words(misread: MisreadAt): string {
  if (misread.is === "lacks") return `${misread.of} lacks ${misread.what}`;
  const { value, unit } = misread.quantity;
  const written = unit ? `${value.text} ${unit.text}` : value.text;
  switch (misread.is) {
    case "no unit":
      return `${written} has no unit: ${unitsWords(misread.units)}`;
    case "no such unit": {
      const metres = metresIn(misread);
      const meant = metres === undefined ? unit && unitMeant(unit.text) : `${metres} m`;
      return `${unit?.text} is no unit here: ${unitsWords(misread.units)}${meant === undefined ? "" : `; did you mean ${meant}?`}`;
    }
    case "another unit":
      return `${written} does not belong here: the unit is ${unitsWords(misread.units)}`;
    case "comma":
      return `${value.text} is written with a point instead of the comma`;
    case "not above nought":
      return `${written} is not more than nought`;
    case "twice":
      return `${written} is a second ${misread.of}; the first one counts`;
    case "out of range":
      return `${written} is no ${misread.of}: ${misread.limit}`;
    case "not wanted":
      return `\`${misread.of}\` takes no number`;
  }
}

/** Metres, where feet are written and metres may stand. */
function metresIn(misread: MisreadAt): number | undefined {
  if (misread.is !== "no such unit" || !misread.units.includes("m")) return undefined;
  const { value, unit } = misread.quantity;
  const number = numberOf(value.text);
  return unit === undefined || number === undefined ? undefined : metresOfFeet(number, unit.text);
}

function unitsWords(units: readonly Unit[]): string {
  const spelled = units.flatMap(unit => (unit === "A" ? ["A", "mA"] : [unit]));
  return spelled.length < 2 ? spelled.join("") : `${spelled.slice(0, -1).join(", ")} or ${spelled.at(-1)}`;
}
