/** Every door and every supply of a site with its sum: what `mullion doors` lists. No codes. */
import { doorsOf, releaseWords } from "../papers/words.ts";
import { baseName } from "../site/paths.ts";
import type { Site } from "../site/site.ts";
import { cautionsOf } from "./cautions.ts";
import type { DoorSum } from "./door-sum.ts";
import { doorSums } from "./door-sum.ts";
import type { SumWords } from "./sum-words.ts";
import { doorSumWords, supplySumWords } from "./sum-words.ts";
import type { SupplySum } from "./supply-sum.ts";
import { supplySums } from "./supply-sum.ts";

export interface DoorsList {
  readonly site: string;
  readonly doors: readonly ListedDoor[];
  readonly supplies: readonly ListedSupply[];
}

export interface ListedDoor {
  /** As it stands in the text. */
  readonly label: string;
  readonly relays: readonly { readonly keypad: string; readonly keypadLabel: string; readonly relay: string; readonly release?: string }[];
  /** Undefined where nothing but a relay's label speaks of the door. */
  readonly sum?: DoorSum;
  readonly words: SumWords;
  /** Without a full stop. */
  readonly cautions: readonly string[];
}

export interface ListedSupply {
  readonly sum: SupplySum;
  readonly words: SumWords;
}

/** @param label of the one door that is asked for, with the supplies that feed it; all without it */
export function doorsList(site: Site, label?: string): DoorsList {
  const sums = new Map(doorSums(site).map(sum => [sum.label, sum]));
  const relays = doorsOf(site);
  const labels = [...new Set([...relays.keys(), ...sums.keys()])].filter(each => label === undefined || each === label);
  const doors = labels.map((each): ListedDoor => {
    const sum = sums.get(each);
    return {
      label: each,
      relays: (relays.get(each) ?? []).map(({ keypad, relay }) => {
        const release = releaseWords(relay.release);
        return {
          keypad: keypad.id,
          keypadLabel: keypad.label || keypad.id,
          relay: relay.set,
          ...(release === undefined ? {} : { release }),
        };
      }),
      ...(sum ? { sum } : {}),
      words: sum ? doorSumWords(sum) : { lines: [], missing: [], assumed: [] },
      cautions: sum ? cautionsOf(sum).map(({ text }) => text) : [],
    };
  });
  const feeding = new Set(doors.flatMap(({ sum }) => sum?.fedBy.map(({ id }) => id) ?? []));
  const supplies = supplySums(site)
    .filter(sum => label === undefined || feeding.has(sum.id))
    .map((sum): ListedSupply => ({ sum, words: supplySumWords(sum) }));
  return { site: site.label ?? baseName(site.root), doors, supplies };
}

/** "relay 1 of Lane gate, open for 5 s". */
export function relayWords({ keypadLabel, relay, release }: ListedDoor["relays"][number]): string {
  return `relay ${relay} of ${keypadLabel}${release === undefined ? "" : `, ${/\d/.test(release) ? `open for ${release}` : `open ${release}`}`}`;
}
