/** A short run of every part with one seed, the same each time, and the proof that a part that does not hold is found out. */
import { describe, expect, test } from "vitest";
import type { Part } from "./part.ts";
import { runPart } from "./part.ts";
import { parts } from "./parts.ts";

const seed = Number(process.env.MULLION_SEED ?? 20261125);
const clock = () => performance.now();

describe(`every part, seed ${seed}`, () => {
  test.each(parts.map(part => [part.name, part] as const))(
    "%s",
    async (name, part) => {
      const { failures } = await runPart(part, { seed, clock, mostFailures: 3 });
      const said = failures.map(failure => {
        const words = failure.fault instanceof Error ? failure.fault.message : String(failure.fault);
        return `${words.slice(0, 500)}; repeated by: npm run fuzz -- --only ${name} --case ${failure.name}`;
      });
      expect(said).toEqual([]);
    },
    120_000,
  );
});

const faults: Record<number, string> = { 41: "forty-one", 42: "forty-two", 43: "forty-three" };

/** Fails for three cases in a hundred, each in words of its own. */
const broken: Part = {
  name: "broken",
  counted: "numbers",
  fixed: 40,
  short: { fixed: 4, random: 2000 },
  attempt({ random, fixed, keep }) {
    const drawn = random.below(100);
    keep(String(drawn));
    if (fixed === undefined && drawn in faults) throw new Error(faults[drawn]);
  },
};

test("what does not hold is found, and found again by its name alone", async () => {
  const { failures, cases } = await runPart(broken, { seed, clock, mostFailures: 3 });
  expect(failures).toHaveLength(3);
  expect(cases).toBeLessThan(2000);
  expect(failures.map(({ fault }) => (fault as Error).message).sort()).toEqual(Object.values(faults).sort());
  for (const { name, tried, fault } of failures) {
    const again = await runPart(broken, { seed: 1, clock, cases: [name] });
    expect(again.failures).toEqual([{ name, tried, fault, times: 1 }]);
  }
});

test("fixed cases are spread evenly, one seed draws the same cases twice, and another seed draws others", async () => {
  const namesOf = async (run: number) => {
    const names: string[] = [];
    const listening: Part = {
      ...broken,
      short: { fixed: 4, random: 5 },
      attempt: ({ fixed, seed: own }) => void names.push(fixed === undefined ? String(own) : `fixed:${fixed}`),
    };
    await runPart(listening, { seed: run, clock });
    return names;
  };
  const [one, again, other] = [await namesOf(7), await namesOf(7), await namesOf(8)];
  expect(one).toEqual(again);
  expect(one.slice(0, 4)).toEqual(["fixed:0", "fixed:10", "fixed:20", "fixed:30"]);
  expect(new Set([...one, ...other]).size).toBe(4 + 5 + 5);
});

test("parts have names of their own", () => {
  expect(new Set(parts.map(({ name }) => name)).size).toBe(parts.length);
});
