/** Drawing a new code: uniform over what is allowed, from a random source that is passed in. */
import { must } from "../must.ts";

/** Bytes from the system's secure random source. */
export type RandomBytes = (count: number) => Uint8Array;

/** Why a code may not be drawn; `name` is what is said when this rule leaves none ("is already taken"). */
export interface DrawRule {
  readonly name: string;
  refuses(code: string): boolean;
}

/** `hardly`: none came up in very many draws, and the codes are too many to go through them all. */
export type Drawn = { readonly code: string } | { readonly none: "left" | "hardly"; readonly because: readonly string[] };

/** Rejections before the whole space is gone through instead; of seven digits and more, which takes long, many more. */
const patience = 2_000;
const stubborn = 1_000_000;
/** Above this many possible codes the space is never gone through. */
const listable = 10_000_000;

/**
 * Draws a code of `digits` digits, each allowed code equally likely.
 *
 * Rejection keeps it uniform: a draw that a rule refuses is thrown away. Where hardly any code is left the allowed ones are listed and one of the list is drawn, so it ends.
 *
 * @returns the code, or which rules left none.
 */
export function drawCode(digits: number, rules: readonly DrawRule[], random: RandomBytes): Drawn {
  const possible = 10 ** digits;
  const refusedBy = new Set<string>();
  const allowed = (code: string) => {
    const rule = rules.find(each => each.refuses(code));
    if (rule) refusedBy.add(rule.name);
    return !rule;
  };
  const written = (value: number) => String(value).padStart(digits, "0");
  for (let draw = 0; draw < (possible > stubborn ? stubborn : patience); draw++) {
    const code = written(uniformBelow(possible, random));
    if (allowed(code)) return { code };
  }
  if (possible > listable) return { none: "hardly", because: [...refusedBy] };
  const left: string[] = [];
  for (let value = 0; value < possible; value++) if (allowed(written(value))) left.push(written(value));
  const code = left.length > 0 ? left[uniformBelow(left.length, random)] : undefined;
  return code === undefined ? { none: "left", because: [...refusedBy] } : { code };
}

/** A whole number from 0 to `limit - 1`, without modulo bias: draws above the largest multiple of `limit` are thrown away. `limit` at most 2^32. */
export function uniformBelow(limit: number, random: RandomBytes): number {
  must(Number.isInteger(limit) && limit >= 1 && limit <= 2 ** 32, "a draw is below a whole number from 1 to 2^32");
  const fair = 2 ** 32 - (2 ** 32 % limit);
  for (;;) {
    const bytes = random(4);
    must(bytes.length === 4, "the random source gives as many bytes as asked for");
    const value = bytes.reduce((sum, byte) => sum * 256 + byte, 0);
    if (value < fair) return value % limit;
  }
}
