/** A code and a tag in one slot, in a way that the model does not have. */
import type { Fix } from "../finding.ts";
import type { Model } from "../keypad/model.ts";
import type { Placement } from "../site/site.ts";
import type { Found } from "./check.ts";
import { at, check, mullion, only } from "./check.ts";
import { replace } from "./edits.ts";
import type { InRecord } from "./record.ts";
import { inRecords } from "./record.ts";

interface WrongPair extends Found {
  readonly inRecord?: never;
  readonly model: Model;
  readonly placement: Placement;
  readonly is: "other mode" | "no pairs" | "same kind" | "half";
}

export const pairMode = check({
  code: "pair-mode",
  severity: "error",
  explain: {
    what: "`or` or `with` where the model has the other, or neither; half a pair where both halves are needed.",
    why: "With `or` either of the two opens, with `with` both are needed: it is the keypad that decides which, not the text. Half a pair opens nothing where both are needed.",
    triggers: mullion`
      holder u1 "Unit 1" code 4829 tag 8061261

      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Gate" {
          1 u1 or u1.tag
             //^^ pair-mode
        }
      }
    `,
    quiet: mullion`
      holder u1 "Unit 1" code 4829 tag 8061261

      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Gate" {
          1 u1
          2 u1.tag
        }
      }
    `,
  },
  *find(site): Iterable<WrongPair | InRecord> {
    for (const keypad of site.keypads.values()) {
      const model = keypad.model;
      if (!model) continue;
      const { holds } = model.slots;
      for (const placement of keypad.placements) {
        const { pair } = placement.node;
        if (!pair && holds !== "code with tag") continue;
        const [one, other] = placement.held.map(use => use.credential);
        const found = { ...only(keypad), model, placement };
        if (!pair) {
          if (holds === "code with tag" && one && model.operations.has("put tag"))
            yield { ...found, ...at(keypad.file, placement.node), is: "half" };
        } else if (holds === "one") yield { ...found, ...at(keypad.file, pair.word), is: "no pairs" };
        else if ((holds === "code or tag") !== (pair.mode === "or")) yield { ...found, ...at(keypad.file, pair.word), is: "other mode" };
        else if (one && other && one.kind === other.kind) yield { ...found, ...at(keypad.file, pair.word), is: "same kind" };
      }
    }
    yield* inRecords(site, "pair-mode");
  },
  message: found => {
    if (found.inRecord) return found.inRecord.message;
    const { is, model, placement } = found;
    const mode = model.slots.holds === "code or tag" ? "or" : "with";
    switch (is) {
      case "no pairs":
        return `a slot of ${model.id} holds a code or a tag, not both`;
      case "other mode":
        return mode === "or" ? `on ${model.id} either of the two opens: or` : `on ${model.id} both are needed: with`;
      case "same kind":
        return `a slot of ${model.id} holds a code and a tag, not two ${placement.held[0]?.credential?.kind ?? "code"}s`;
      case "half":
        return `on ${model.id} a code and a tag are both needed; this half alone opens nothing`;
    }
  },
  fixes: (found): readonly Fix[] => {
    if (found.inRecord || found.is !== "other mode" || !found.placement.node.pair) return [];
    const mode = found.model.slots.holds === "code or tag" ? "or" : "with";
    return [{ title: `Change to ${mode}`, edits: [replace(found.file, found.placement.node.pair.word, mode)], preferred: true }];
  },
});
