/** What a keypad is to hold by the text, for the checks that look at it as a whole. */
import { codeLengthsInForce } from "../keypad/lengths.ts";
import type { Memory } from "../keypad/memory.ts";
import type { Model } from "../keypad/model.ts";
import { wantedMemory } from "../plan/wanted.ts";
import type { Keypad } from "../site/site.ts";

const known = new WeakMap<Keypad, Memory>();

/** The memory that the text wants; what it does not say is as the record or else the factory has it. */
export function wantedOf(keypad: Keypad, model: Model): Memory {
  const before = known.get(keypad);
  if (before) return before;
  const wanted = wantedMemory(keypad, keypad.fitted?.memory ?? model.factory);
  known.set(keypad, wanted);
  return wanted;
}

/** Code lengths that the keypad takes as it is wanted; an installer code or a length that it cannot have changes nothing. */
export function wantedLengths(keypad: Keypad, model: Model): readonly number[] {
  const inForce = codeLengthsInForce(model, wantedOf(keypad, model)).filter(length => model.codeLengths.includes(length));
  return inForce.length > 0 ? inForce : model.codeLengths;
}
