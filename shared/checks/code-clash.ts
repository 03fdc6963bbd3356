/** One code or tag in two places of one keypad. */
import type { Span } from "../../grammar/tree.ts";
import type { Severity } from "../finding.ts";
import type { Model } from "../keypad/model.ts";
import { slotKey } from "../keypad/slot-key.ts";
import type { Keypad } from "../site/site.ts";
import type { HeldAt } from "../site/where.ts";
import type { Found } from "./check.ts";
import { at, check, mullion, only } from "./check.ts";
import { drawNew } from "./edits.ts";
import { credentialWords, placeWords } from "./words.ts";

interface Clash extends Found {
  readonly model: Model;
  readonly first: HeldAt;
  readonly again: HeldAt;
}

export const codeClash = check({
  code: "code-clash",
  severity: "error",
  exceptions: "warning where all of them fire and the holders differ",
  needsOpen: true,
  explain: {
    what: "One code or tag in two places of one keypad, judged by the model's `twins`.",
    why: "A keypad that refuses twins does not take the second entry; one that lets the first fire never fires the second. Where all fire, one code opens what two holders were given.",
    triggers: mullion`
      holder u1 "Unit 1" code 4829
      holder u2 "Unit 2" code 4829

      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Gate" {
          1 u1
          2 u2
          //^^ code-clash
        }
      }
    `,
    quiet: mullion`
      holder u1 "Unit 1" code 4829
      holder u2 "Unit 2" code 5591

      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Gate" {
          1 u1
          2 u2
        }
      }
    `,
  },
  *find(site): Iterable<Clash> {
    for (const keypad of site.keypads.values()) if (keypad.model) yield* clashes(keypad, keypad.model);
  },
  message: ({ model, first, again }) => {
    const [one, other] = [first.use.credential, again.use.credential];
    const whose =
      one && other && one !== other ? `the same as ${credentialWords(one)}` : `${other ? credentialWords(other) : "this"} again`;
    const rules = {
      refused: `${model.id} refuses one ${other?.kind ?? "code"} in two places`,
      "first fires": "only the first of the two fires",
      "all fire": "both fire",
    };
    return `${whose}, in ${where(first)} already; ${rules[model.twins]}`;
  },
  // Where one holder has one code in two places, another code is needed for one of them: which, only the person knows.
  fixes: ({ first, again }) => (first.use.credential === again.use.credential ? [] : drawNew(again.use.credential)),
});

function* clashes(keypad: Keypad, model: Model): Iterable<Clash> {
  const seen = new Map<string, { readonly place: string; readonly at: HeldAt }>();
  for (const { place, at: again } of placesOf(keypad, model)) {
    const credential = again.use.credential;
    const content = credential?.kind === "tag" ? credential.tag && `tag ${credential.tag}` : credential?.digits;
    if (!content) continue;
    const first = seen.get(content);
    if (!first) {
      seen.set(content, { place, at: again });
      continue;
    }
    // One place twice is a slot-clash, where places have numbers; a place is never its own twin.
    if (first.place === place && model.slots.addressing !== "unnumbered") continue;
    const severity = severityOf(model, first.at, again);
    if (!severity) continue;
    const node: Span = again.use.node;
    const related = [{ ...at(first.at.use.file, first.at.use.node), message: `in ${where(first.at)}` }];
    yield { ...at(again.use.file, node), ...only(keypad), related, severity, model, first: first.at, again };
  }
}

function* placesOf(keypad: Keypad, model: Model): Iterable<{ readonly place: string; readonly at: HeldAt }> {
  for (const allRelay of keypad.allRelay) {
    if (allRelay.held?.credential?.kind !== "code") continue;
    yield { place: `all-relay ${allRelay.number ?? ""}`, at: { keypad, use: allRelay.held, as: "all-relay", allRelay } };
  }
  for (const placement of keypad.placements) {
    const place = `slot ${slotKey(model, placement.relay.set, placement.slot)}`;
    for (const use of placement.held) yield { place, at: { keypad, use, as: "slot", placement } };
  }
}

function severityOf(model: Model, first: HeldAt, again: HeldAt): Severity | undefined {
  if (model.twins !== "all fire") return "error";
  return first.use.holder === again.use.holder ? undefined : "warning";
}

function where(place: HeldAt): string {
  return place.as === "slot" ? placeWords(place.placement) : "the all-relay code";
}
