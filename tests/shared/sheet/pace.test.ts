/** Tries come in an order that a keypad with a lockout sits through. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { inPace } from "../../../shared/sheet/pace.ts";
import type { Try } from "../../../shared/sheet/shape.ts";

const one = (who: string, opens: readonly string[]): Try => ({
  who,
  keys: [],
  opens,
  expect: opens.length > 0 ? "Foot gate opens" : "nothing",
  kind: opens.length > 0 ? "new" : "withdrawn",
  seconds: 1,
});
const good = (name: string) => one(name, ["1"]);
const bad = (name: string) => one(name, []);
const order = (tries: readonly Try[]) =>
  tries.map(({ who, waitSeconds }) => (waitSeconds === undefined ? who : `(wait ${waitSeconds}) ${who}`));

test("good, bad, good", () => {
  const tries = [bad("x"), good("a"), good("b"), bad("y"), good("c")];
  expect(order(inPace(tries, { tries: 5, seconds: 60 }))).toEqual(["a", "x", "b", "y", "c"]);
});

test("a good one is keyed again before the keypad would lock, and at the end", () => {
  const tries = [good("a"), ...["v", "w", "x", "y"].map(bad)];
  expect(order(inPace(tries, { tries: 3, seconds: 60 }))).toEqual(["a", "v", "w", "a", "x", "y", "a"]);
});

test("where nothing opens, the lockout is waited out", () => {
  expect(order(inPace(["v", "w", "x"].map(bad), { tries: 3, seconds: 60 }))).toEqual(["v", "w", "(wait 60) x"]);
});

test("without a lockout nothing is keyed twice", () => {
  expect(order(inPace([good("a"), ...["v", "w", "x"].map(bad)], undefined))).toEqual(["a", "v", "w", "x"]);
});

test("a keypad that locks after one wrong try is given its time after each", () => {
  expect(order(inPace([good("a"), bad("v"), bad("w")], { tries: 1, seconds: 30 }))).toEqual(["a", "v", "(wait 30) w", "(wait 30) a"]);
});

test("never as many wrong ones in a row as lock it, none left out, none but a good one twice", () => {
  fc.assert(
    fc.property(fc.array(fc.boolean(), { maxLength: 30 }), fc.integer({ min: 2, max: 6 }), (kinds, limit) => {
      const tries = kinds.map((opens, index) => (opens ? good(`good ${index}`) : bad(`bad ${index}`)));
      const paced = inPace(tries, { tries: limit, seconds: 60 });
      let wrong = 0;
      for (const { opens, waitSeconds } of paced) {
        if (waitSeconds !== undefined) wrong = 0;
        wrong = opens.length > 0 ? 0 : wrong + 1;
        expect(wrong).toBeLessThan(limit);
      }
      const once = paced.filter(({ kind }) => kind !== "again").map(({ who }) => who);
      expect([...once].sort()).toEqual(tries.map(({ who }) => who).sort());
    }),
  );
});
