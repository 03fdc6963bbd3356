/** The odds of guessing a code at one keypad, for its findings, its hover and the table of who opens what. */
import type { Keypad } from "../site/site.ts";
import { liveCodes } from "./live.ts";
import type { GuessOdds } from "./odds.ts";
import { guessOdds } from "./odds.ts";

/** For the live codes of each length, the likeliest hit first. Empty where no code opens anything, or the model is unknown. */
export function codeOdds(keypad: Keypad): readonly GuessOdds[] {
  const { model } = keypad;
  if (!model) return [];
  const live = new Map<number, Set<string>>();
  for (const { digits } of liveCodes(keypad)) live.set(digits.length, (live.get(digits.length) ?? new Set()).add(digits));
  const template = model.operations.get("open code")?.template ?? [];
  const endKeys = template.reduce(
    (keys, element) => keys + (element.kind !== "keys" ? 0 : /^\d+$/.test(element.text) ? element.text.length : 1),
    0,
  );
  const odds = guessOdds(new Map([...live].map(([digits, codes]) => [digits, codes.size])), {
    ...(model.lockout ? { lockout: model.lockout } : {}),
    listens: model.listens,
    endKeys,
  });
  return [...odds].sort((one, other) => other.live / 10 ** other.digits - one.live / 10 ** one.digits);
}

/** `1 in 2000`; certain and impossible are said so. */
export function oneInWords(odds: number): string {
  if (odds <= 0) return "none";
  if (odds >= 1) return "certainty";
  return `1 in ${Math.floor(1 / odds + 1e-9)}`;
}
