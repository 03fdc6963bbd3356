/** A keypad in words: slots used, the odds of a guess, entries to type; and a model: what its memory is like. */
import { codeOdds, oneInWords } from "../codes/keypad-odds.ts";
import type { Model } from "../keypad/model.ts";
import type { CannotPlan, Plan } from "../plan/plan.ts";
import { minutesWords } from "../sheet/before.ts";
import type { Keypad, Site } from "../site/site.ts";
import { plain, verbatim } from "./markdown.ts";

/** As Markdown, without any code. @param plan what is to be typed, where that is known */
export function keypadWords(keypad: Keypad, plan: Plan | CannotPlan | undefined): string {
  const { model } = keypad;
  const head = `**${plain(keypad.label || keypad.id)}** ${verbatim(keypad.id)}`;
  if (!model) return `${head}\n\nIts model is not known.`;
  const lines = [...slotLines(keypad, model), ...oddsLines(keypad), waitingLine(plan)];
  return [`${head}: ${plain(model.label || model.id)}`, "", ...lines.filter(line => line !== undefined).map(line => `- ${line}`)].join(
    "\n",
  );
}

export function waitingWords(plan: Plan | CannotPlan): string {
  if ("cannot" in plan) return `no plan: ${plan.cannot}`;
  const { entries } = plan.counts;
  if (entries === 0) return "nothing to type";
  return `${entries} ${entries === 1 ? "entry" : "entries"} to type`;
}

function waitingLine(plan: Plan | CannotPlan | undefined): string | undefined {
  if (!plan) return undefined;
  if ("cannot" in plan) return plain(`${waitingWords(plan)}${plan.instead ? `; ${plan.instead}` : ""}`);
  return plan.counts.entries === 0
    ? waitingWords(plan)
    : `${waitingWords(plan)}, ${minutesWords(plan.seconds)} of keys only for a practised hand`;
}

function slotLines(keypad: Keypad, { slots }: Model): string[] {
  const used = (placements: readonly { readonly slot?: number }[]) =>
    slots.addressing === "unnumbered" ? placements.length : new Set(placements.map(({ slot }) => slot)).size;
  switch (slots.addressing) {
    case "one per relay":
      return [];
    case "per relay":
      return keypad.relays
        .filter(({ placements, spare, noCodes }) => placements.length > 0 || !(spare || noCodes))
        .map(
          ({ label, set, placements }) => `${label ? plain(label) : `relay ${set}`}: ${used(placements)} of ${slots.capacity} slots used`,
        );
    default:
      return [`${used(keypad.placements)} of ${slots.capacity} slots used`];
  }
}

function oddsLines(keypad: Keypad): string[] {
  return codeOdds(keypad).map(({ digits, live, tries, beforeLockout, meanLockedSeconds, keysForAll }) => {
    const what = `${live} live ${live === 1 ? "code" : "codes"} of ${digits} digits`;
    if (beforeLockout === undefined) return `${what}; the keypad never locks out, ${keysForAll} keys try every code`;
    const waiting =
      meanLockedSeconds === undefined
        ? ""
        : `; who goes on waits out ${longTimeWords(meanLockedSeconds)} of lockouts on average before a first hit`;
    return `${what}; odds of a guess in the ${tries} tries before the lockout: ${oneInWords(beforeLockout)}${waiting}`;
  });
}

/** `27.8 hours`, `3.5 days`: one digit behind the point, in the largest unit of which there are two. */
function longTimeWords(seconds: number): string {
  const units = [
    ["days", 86_400],
    ["hours", 3_600],
    ["minutes", 60],
  ] as const;
  const [unit, length] = units.find(([, each]) => seconds >= 2 * each) ?? ["seconds", 1];
  return `${(seconds / length).toFixed(length === 1 ? 0 : 1)} ${unit}`;
}

/** A model: its relays, its memory, and which keypads of the site are of this kind. */
export function modelWords(site: Site, model: Model): string {
  const { slots, codeLengths, relayNumbers } = model;
  const keypads = [...site.keypads.values()].filter(keypad => keypad.model?.id === model.id).map(({ label, id }) => plain(label || id));
  const memory = slots.addressing === "one per relay" ? "one code for each relay" : `${slots.capacity} slots, ${slots.addressing}`;
  const lines = [
    `${relayNumbers.length} ${relayNumbers.length === 1 ? "relay" : "relays"}; ${memory}`,
    `codes of ${codeLengths.join(" or ")} digits`,
    ...(keypads.length > 0 ? [`keypads of this kind here: ${keypads.join(", ")}`] : []),
  ];
  return [`**${plain(model.label || model.id)}** ${verbatim(model.id)}`, "", ...lines.map(line => `- ${line}`)].join("\n");
}
