/** Any text: what the grammar allows, what happens to a text by accident, every beginning of every sample, every sample without a line. */
import type { FileId } from "../../../shared/finding.ts";
import type { Attempt, Part } from "../part.ts";
import type { Random } from "../random.ts";
import { corpus } from "./corpus.ts";
import { checkDamage, damaged, damages } from "./damage.ts";
import { generated } from "./generate.ts";
import { checkText, holds } from "./holds.ts";
import { mutated } from "./mutate.ts";
import { checkUse } from "./use.ts";

/** How long one text of less than a megabyte may take, in milliseconds: the promise is a second, and the machine may be busy. */
const longestTime = 5000;

/** Every beginning of every text, the whole one included. */
const prefixes = corpus.flatMap(({ file, text }) => Array.from({ length: text.length + 1 }, (_, length) => ({ file, text, length })));

export const text: Part = {
  name: "text",
  counted: "documents",
  fixed: prefixes.length + damages.length,
  short: { fixed: 300, random: 600 },
  attempt(one) {
    const { fixed } = one;
    if (fixed === undefined) {
      const { file, text } = drawn(one.random);
      tryText(one, file, text, one.random);
      return;
    }
    // Beginnings and damages in turn, so that a run that ends early has tried some of both.
    const damage = fixed % 2 === 0 || fixed / 2 >= prefixes.length ? damages[damageAt(fixed)] : undefined;
    if (damage) {
      const { file } = damage;
      tryText(one, file, damaged(damage), one.random);
      checkDamage(damage);
    } else {
      const { file, text, length } = prefixes[prefixAt(fixed)] ?? { file: "/none.mullion", text: "", length: 0 };
      tryText(one, file, text.slice(0, length), one.random);
    }
  },
};

/** Even numbers are damages while there are any, the others are beginnings. */
function damageAt(fixed: number): number {
  const both = Math.min(prefixes.length, damages.length);
  return fixed < both * 2 ? fixed / 2 : fixed - both;
}

function prefixAt(fixed: number): number {
  const both = Math.min(prefixes.length, damages.length);
  return fixed < both * 2 ? (fixed - 1) / 2 : fixed - both;
}

function drawn(random: Random): { readonly file: FileId; readonly text: string } {
  if (random.oneIn(3)) return { file: "/fuzz/made.mullion", text: generated(random) };
  if (random.oneIn(3)) return { file: "/fuzz/made.mullion", text: mutated(generated(random), random) };
  const { file, text } = random.one(corpus);
  return { file, text: mutated(text, random) };
}

function tryText({ keep }: Attempt, file: FileId, text: string, random: Random): void {
  keep(text);
  const begun = performance.now();
  const { source, site } = checkText(file, text, random.oneIn(4));
  checkUse(source, site, random);
  const took = performance.now() - begun;
  holds(took < longestTime, `a text of ${text.length} characters took ${Math.round(took)} ms`);
}
