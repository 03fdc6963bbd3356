/** Keys that two entries both accept, as an example to show: values typed twice equal and zeros avoided where that is possible. */
import type { Alternative, KeySymbol } from "./alternatives.ts";
import { anyDigit } from "./alternatives.ts";
import type { Act } from "./memory.ts";

/**
 * Acts that complete `longer`, of which the first so many complete `shorter`.
 *
 * @param digits the digit keys of the keypad.
 */
export function witnessOf(shorter: Alternative, longer: Alternative, digits: readonly string[]): readonly Act[] {
  const wanted = longer.symbols.map((symbol, at) => meet(symbol, shorter.symbols[at]));
  const groups = groupsOf(wanted.length, [shorter, longer]);
  const chosen = new Map<number, string>();
  for (const [at, symbol] of wanted.entries()) if (symbol !== anyDigit) chosen.set(groups[at] ?? at, symbol);
  // Where equality of values typed twice cannot be had, the symbols that the entries demand win.
  return wanted.map((symbol, at) => actOf(symbol === anyDigit ? digitFor(chosen.get(groups[at] ?? at), at, digits) : symbol));
}

function meet(one: KeySymbol, other: KeySymbol | undefined): KeySymbol {
  return one === anyDigit && other !== undefined ? other : one;
}

function digitFor(demanded: string | undefined, at: number, digits: readonly string[]): string {
  if (demanded !== undefined && digits.includes(demanded)) return demanded;
  const shown = digits.includes("1") ? "1" : digits[0];
  return shown ?? `${at % 10}`;
}

/** Positions that must be equal share a number: those of a field that stands twice in one of the entries. */
function groupsOf(length: number, alternatives: readonly Alternative[]): readonly number[] {
  const leader = Array.from({ length }, (_, at) => at);
  const find = (at: number): number => (leader[at] === at || leader[at] === undefined ? at : find(leader[at]));
  for (const { fields } of alternatives) {
    for (const [index, field] of fields.entries()) {
      const first = fields.slice(0, index).find(other => other.field === field.field && other.to - other.from === field.to - field.from);
      if (first) for (let i = 0; i < field.to - field.from; i++) leader[find(field.from + i)] = find(first.from + i);
    }
  }
  return leader.map((_, at) => find(at));
}

function actOf(symbol: KeySymbol): Act {
  return symbol.startsWith("[") ? { hand: symbol.slice(1, -1) } : { press: symbol };
}
