/** One code or tag in two places of one keypad. */
import type { Span } from "../../grammar/tree.ts";
import type { Severity } from "../finding.ts";
import type { Model } from "../keypad/model.ts";
import { slotKey } from "../keypad/slot-key.ts";
import type { Keypad } from "../site/site.ts";
import type { HeldAt } from "../site/where.ts";
import { heldEverywhere } from "../site/where.ts";
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
    const seen = new Map<Keypad, Map<string, HeldAt>>();
    for (const again of heldEverywhere(site)) {
      const { keypad } = again;
      const content = keypad.model && again.as !== "installer" ? contentOf(again) : undefined;
      if (!keypad.model || !content) continue;
      const before = seen.get(keypad) ?? new Map<string, HeldAt>();
      seen.set(keypad, before);
      const first = before.get(content);
      const clash = first && clashOf(keypad, keypad.model, first, again);
      if (clash) yield clash;
      if (!first) before.set(content, again);
    }
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

/** What is compared: of all-relay codes only codes. */
function contentOf({ use, as }: HeldAt): string | undefined {
  const { credential } = use;
  if (credential?.kind !== "tag") return credential?.digits;
  return as === "slot" ? credential.tag && `tag ${credential.tag}` : undefined;
}

function clashOf(keypad: Keypad, model: Model, first: HeldAt, again: HeldAt): Clash | undefined {
  // One place twice is a slot-clash, where places have numbers; a place is never its own twin.
  if (placeOf(model, first) === placeOf(model, again) && model.slots.addressing !== "unnumbered") return undefined;
  const severity = severityOf(model, first, again);
  if (!severity) return undefined;
  const node: Span = again.use.node;
  const related = [{ ...at(first.use.file, first.use.node), message: `in ${where(first)}` }];
  return { ...at(again.use.file, node), ...only(keypad), related, severity, model, first, again };
}

function placeOf(model: Model, place: HeldAt): string {
  if (place.as === "slot") return `slot ${slotKey(model, place.placement.relay.set, place.placement.slot)}`;
  return place.as === "all-relay" ? `all-relay ${place.allRelay.number ?? ""}` : place.as;
}

function severityOf(model: Model, first: HeldAt, again: HeldAt): Severity | undefined {
  if (model.twins !== "all fire") return "error";
  return first.use.holder === again.use.holder ? undefined : "warning";
}

function where(place: HeldAt): string {
  return place.as === "slot" ? placeWords(place.placement) : "the all-relay code";
}
