/** Which lengths of code a keypad takes at a time: the model's, and what the code length in force leaves of them. */
import type { Digits } from "./memory.ts";
import type { Model } from "./model.ts";

/** What the lengths in force depend on: a memory has both. */
export interface Force {
  /** The installer code in force; undefined where nobody knows it. */
  readonly installer?: Digits;
  /** Only where the length is `set by entry`. */
  readonly codeLength?: number;
}

/**
 * Lengths that `{code}` in `put` and `set all-relay` has now; codes of other lengths are asleep. Ascending.
 * Where nobody knows what is in force: every length that the model allows.
 */
export function codeLengthsInForce(model: Model, force: Force): readonly number[] {
  switch (model.length) {
    case "one":
    case "free":
      return model.codeLengths;
    case "follows installer code":
      return force.installer === undefined ? model.codeLengths : [force.installer.length];
    case "set by entry": {
      const length = force.codeLength ?? model.factory.codeLength;
      return length === undefined ? model.codeLengths : [length];
    }
  }
}

/**
 * Lengths that `{installer}` may have now: its own where the model gives them, else those of codes. The length of the
 * installer code in force is always one of them, so that a new code length does not lock the installer out. Ascending.
 */
export function installerLengthsInForce(model: Model, force: Force): readonly number[] {
  const own = model.installerOwn ? model.installerLengths : codeLengthsInForce(model, force);
  const length = force.installer?.length;
  return length === undefined || own.includes(length) ? own : [...own, length].sort((a, b) => a - b);
}
