/** The table of who opens what as words: the same cells for every format. */
import { codeOdds, oneInWords } from "../codes/keypad-odds.ts";
import { labelled } from "../sheet/visible.ts";
import type { Day, Site } from "../site/site.ts";
import type { WayIn } from "./who.ts";

export const whoColumns = ["door", "holder", "with", "keypad", "until", "opens now", "after the next visit"] as const;

export interface WhoTable {
  readonly site: string;
  readonly date: Day;
  readonly rows: readonly { readonly way: WayIn; readonly cells: readonly string[] }[];
  /** One sentence a keypad: the odds of a guess. */
  readonly odds: readonly string[];
  readonly notes: readonly string[];
}

/** @param date the day the table is made; what has lapsed is judged by it. */
export function whoTable(site: Site, ways: readonly WayIn[], date: Day): WhoTable {
  const keypads = [...site.keypads.values()].filter(keypad => ways.some(way => way.keypad === keypad));
  return {
    site: labelled(site.label ?? "A site without a name"),
    date,
    rows: ways.map(way => ({ way, cells: cellsOf(way) })),
    odds: keypads.flatMap(keypad => {
      const worst = codeOdds(keypad)[0];
      if (!worst) return [];
      const live = `${worst.live} ${worst.live === 1 ? "code" : "codes"} of ${worst.digits} digits`;
      return [
        worst.beforeLockout === undefined
          ? `${labelled(keypad.label)}: ${live}; it never locks out, and ${worst.keysForAll} keys try every code.`
          : `${labelled(keypad.label)}: ${live}; a guess hits with odds of ${oneInWords(worst.beforeLockout)} before it locks out.`,
      ];
    }),
    notes: [
      "A keypad has no calendar: what has lapsed opens until it is taken out at the keypad.",
      ...(ways.some(way => way.now === "unknown")
        ? ["Not known: the record does not say all that a keypad holds, and more may open a door than is listed."]
        : []),
      ...(keypads.some(keypad => keypad.fitted === undefined)
        ? ["A keypad without a fitted record is taken to be as it left the factory."]
        : []),
    ],
  };
}

function cellsOf(way: WayIn): readonly string[] {
  const holder = way.holder ? labelled(way.holder.label) : "nobody in the text";
  const name = way.credential?.split(".")[1];
  const own = name === undefined || name === way.by ? way.by : `${way.by} "${name}"`;
  return [
    labelled(way.door),
    holder,
    way.lost ? `${own} (lost)` : own,
    labelled(way.keypad.label),
    way.until ?? "",
    way.now === "unknown" ? "not known" : way.now === "no" ? "no" : way.lapsed ? "opens, though lapsed" : "opens",
    way.after ? (way.lapsed ? "opens, though lapsed" : "opens") : "no",
  ];
}
