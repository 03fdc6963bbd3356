import { randomBytes } from "node:crypto";
import { describe, expect, test } from "vitest";
import type { DrawRule } from "../../../shared/codes/draw.ts";
import { drawCode, uniformBelow } from "../../../shared/codes/draw.ts";
import { weakness } from "../../../shared/codes/weak.ts";

const random = (count: number) => randomBytes(count);
const rule = (name: string, refuses: (code: string) => boolean): DrawRule => ({ name, refuses });

/** Chi-square of 200,000 draws over the allowed codes of three digits; the 0.9999 quantile is about mean + 3.72 √(2·df) (normal approximation, Wilson-Hilferty is closer but not needed here). */
test("each allowed code is equally likely", () => {
  const rules = [rule("is weak", code => weakness(code) !== undefined), rule("begins with nine", code => code.startsWith("9"))];
  const allowed = Array.from({ length: 1_000 }, (_, i) => String(i).padStart(3, "0")).filter(
    code => !rules.some(each => each.refuses(code)),
  );
  const seen = new Map<string, number>();
  const draws = 200_000;
  let pool = new Uint8Array(0);
  let used = 0;
  // One call to the system for many draws: the test is about the drawing, not about the cost of the source.
  const pooled = (count: number) => {
    if (used + count > pool.length) {
      pool = randomBytes(1 << 16);
      used = 0;
    }
    used += count;
    return pool.subarray(used - count, used);
  };
  for (let i = 0; i < draws; i++) {
    const drawn = drawCode(3, rules, pooled);
    if ("none" in drawn) throw new Error("codes are left");
    seen.set(drawn.code, (seen.get(drawn.code) ?? 0) + 1);
  }
  expect([...seen.keys()].filter(code => !allowed.includes(code))).toEqual([]);
  const expected = draws / allowed.length;
  const chiSquare = allowed.reduce((sum, code) => sum + ((seen.get(code) ?? 0) - expected) ** 2 / expected, 0);
  const freedom = allowed.length - 1;
  console.log(`chi-square ${chiSquare.toFixed(0)} for ${freedom} degrees of freedom`);
  expect(chiSquare).toBeLessThan(freedom + 3.72 * Math.sqrt(2 * freedom) + 10);
  expect(chiSquare).toBeGreaterThan(freedom - 5 * Math.sqrt(2 * freedom));
});

describe("where hardly anything is left", () => {
  test("the only code left is found", () => {
    expect(drawCode(5, [rule("is taken", code => code !== "48291")], random)).toEqual({ code: "48291" });
  });

  test("of eight digits, too many to go through them all, it says that none came up", () => {
    let asked = 0;
    const never = rule("is taken", () => asked++ >= 0);
    expect(drawCode(8, [never], () => Uint8Array.of(0, 0, 0, 7))).toEqual({ none: "hardly", because: ["is taken"] });
    expect(asked).toBe(1_000_000);
  });

  test("none left: it says which rules leave none", () => {
    const rules = [rule("is taken", code => code < "5000"), rule("is weak", code => code >= "5000"), rule("is never asked", () => true)];
    expect(drawCode(4, rules, random)).toEqual({ none: "left", because: expect.arrayContaining(["is taken", "is weak"]) });
    expect(drawCode(4, rules, random)).toEqual({ none: "left", because: expect.not.arrayContaining(["is never asked"]) });
  });
});

test("numbers that would bias the draw are thrown away", () => {
  // The largest multiple of ten below 2^32 ends at 4294967290: what stands at or above it is drawn again.
  const source = [0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xfa, 0, 0, 0, 27];
  let at = 0;
  const scripted = (count: number) => {
    at += count;
    return Uint8Array.from(source.slice(at - count, at));
  };
  expect(uniformBelow(10, scripted)).toBe(7);
  expect(at).toBe(12);
});
