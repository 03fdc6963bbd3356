/** Keys that a model's keypad can take in two ways. */
import type { Ambiguity } from "../keypad/ambiguity.ts";
import { ambiguities, spanOf } from "../keypad/ambiguity.ts";
import type { Act } from "../keypad/memory.ts";
import type { Model } from "../keypad/model.ts";
import type { Keypad } from "../site/site.ts";
import type { Found } from "./check.ts";
import { at, check, mullion, only } from "./check.ts";
import { entriesNeeded } from "./entries-needed.ts";
import { keypadsWithModel, orNone } from "./touched.ts";

interface TwoWays extends Found {
  /** All with the same second entry; at least one. */
  readonly all: readonly Ambiguity[];
  /** The keypad that needs both; undefined at the model itself. */
  readonly keypad?: Keypad;
}

export const modelAmbiguous = check({
  code: "model-ambiguous",
  severity: "warning",
  exceptions: "error at a keypad that needs both entries",
  explain: {
    what: "Two entries of a model accept the same keys, or the keys of one are the beginning of another's.",
    why: "The keypad takes such keys as one of the two, and the text cannot know which: what is typed may do something else. Manuals are like that; compare the line with the manual, a slip there is likely.",
    triggers: mullion`
      model wader "One relay" {
        relays 1 = 1
        slots 1..3 per relay
        codes 4 digits
        enter * {installer} #
        leave * *
        put code 1 {slot} {code} #
      //^^^^^^^^ model-ambiguous
        clear slot 1 {slot}
        set installer 4 {code} {code} #
        open code {code}
        factory { installer code 9753 }
      }
    `,
    quiet: mullion`
      model wader "One relay" {
        relays 1 = 1
        slots 1..3 per relay
        codes 4 digits
        enter * {installer} #
        leave * *
        put code 1 {slot} {code} #
        clear slot 3 {slot} #
        set installer 4 {code} {code} #
        open code {code}
        factory { installer code 9753 }
      }
    `,
  },
  *find(site): Iterable<TwoWays> {
    for (const model of site.models.values()) {
      const keypads = orNone(keypadsWithModel(site, model.id));
      for (const [start, all] of bySecond(model)) {
        const [first] = all;
        if (!first) continue;
        const related = all.map(one => ({ ...at(model.file, spanOf(model, one.first)), message: nameOf(one.first) }));
        yield { ...at(model.file, { start, end: spanOf(model, first.second).end }), related, keypads, all };
      }
    }
    for (const keypad of site.keypads.values()) {
      const { model } = keypad;
      const all = model ? [...bySecond(model).values()].flat() : [];
      if (!model || !keypad.node.model || all.length === 0) continue;
      const needed = entriesNeeded(keypad, model);
      const both = all.filter(one => needed.has(nameOf(one.first)) && needed.has(nameOf(one.second)));
      const related = both.map(one => ({ ...at(model.file, spanOf(model, one.second)), message: nameOf(one.second) }));
      if (both.length > 0) yield { ...at(keypad.file, keypad.node.model), ...only(keypad), severity: "error", related, all: both, keypad };
    }
  },
  message: ({ all, keypad }) => {
    const [first] = all;
    if (!first) return "";
    if (keypad) return `${keypad.label} needs ${nameOf(first.first)} and ${nameOf(first.second)}, which its model cannot tell apart`;
    const others = [...new Set(all.slice(1).map(one => nameOf(one.first)))];
    const more = others.length > 0 ? `; so it is with ${others.join(", ")}` : "";
    const keys = keysText(first.witness);
    if (first.kind === "same keys") return `${nameOf(first.second)} and ${nameOf(first.first)} take the same keys: ${keys}${more}`;
    const begins = keysText(first.witness.slice(0, first.completeAfter));
    return `${nameOf(first.first)} is complete before ${nameOf(first.second)} is: ${begins} begins ${keys}${more}`;
  },
});

const known = new WeakMap<Model, ReadonlyMap<number, readonly Ambiguity[]>>();

/** By the place of the second of the two, so that one line of the model has one finding. */
function bySecond(model: Model): ReadonlyMap<number, readonly Ambiguity[]> {
  const before = known.get(model);
  if (before) return before;
  const all = new Map<number, Ambiguity[]>();
  for (const ambiguity of ambiguities(model)) {
    const start = spanOf(model, ambiguity.second).start;
    const list = all.get(start) ?? [];
    all.set(start, list);
    list.push(ambiguity);
  }
  known.set(model, all);
  return all;
}

function nameOf({ operation, label }: Ambiguity["first"]): string {
  return label === undefined ? operation : `${operation} "${label}"`;
}

/** Presses in a row, named keys and actions of the hand apart. */
function keysText(acts: readonly Act[]): string {
  return acts
    .map(act => ("press" in act ? (act.press.length > 1 ? ` ${act.press} ` : act.press) : ` [${act.hand}] `))
    .join("")
    .replace(/ +/g, " ")
    .trim();
}
