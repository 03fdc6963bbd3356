/** `npm run fuzz -- --minutes N`: every part in turn, each for its share of the time; what fails can be repeated by its name. */
import { randomInt } from "node:crypto";
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { parseArgs } from "node:util";
import type { Failure, Part } from "./part.ts";
import { runPart } from "./part.ts";
import { parts } from "./parts.ts";

const usage = `npm run fuzz -- [--minutes N] [--only PART] [--seed S] [--case NAME]

  --minutes N   how long in all, shared out evenly among the parts (1)
  --only PART   ${parts.map(({ name }) => name).join(", ")}; may stand more than once
  --seed S      draws the same cases again (otherwise a new seed, which is printed)
  --case NAME   repeats one case of one part, by the name that a failure was printed with`;

const kept = join(import.meta.dirname, "../../out/fuzz");

const { values } = parseArgs({
  options: {
    minutes: { type: "string", default: "1" },
    only: { type: "string", multiple: true },
    seed: { type: "string" },
    case: { type: "string" },
    help: { type: "boolean", short: "h" },
  },
});
const [minutes, seed] = [Number(values.minutes), values.seed === undefined ? randomInt(2 ** 32) : Number(values.seed)];
const chosen = values.only ? parts.filter(({ name }) => values.only?.includes(name)) : parts;
const unknown = values.only?.filter(name => !parts.some(part => part.name === name)) ?? [];
const isOneCase = values.case !== undefined;

if (values.help) console.log(usage);
else if (unknown.length > 0 || !(minutes > 0) || !Number.isInteger(seed) || (isOneCase && chosen.length !== 1)) {
  console.error(usage);
  process.exitCode = 2;
} else process.exitCode = await runAll();

async function runAll(): Promise<number> {
  console.log(isOneCase ? `case ${values.case}` : `seed ${seed}; repeated by: npm run fuzz -- --minutes ${minutes} --seed ${seed}`);
  let failed = 0;
  for (const part of chosen) {
    const outcome = await runPart(part, {
      seed,
      clock: () => performance.now(),
      time: (minutes * 60_000) / chosen.length,
      ...(values.case !== undefined && { cases: [values.case] }),
    });
    const { cases, counted, seconds, failures } = outcome;
    const rate = (counted / Math.max(seconds, 0.001)).toFixed(0);
    console.log(
      `${part.name}: ${counted} ${part.counted} in ${cases} cases, ${seconds.toFixed(0)} s (${rate} a second), ${failures.length} failed`,
    );
    for (const failure of failures) console.log(said(part, failure));
    failed += failures.length;
  }
  return failed > 0 ? 1 : 0;
}

/** What failed, where what was tried is kept, and how it is repeated. */
function said(part: Part, { name, fault, tried, times }: Failure): string {
  const words = fault instanceof Error ? (fault.stack ?? fault.message) : String(fault);
  const lines = [`  case ${name} (of ${times}): ${words.split("\n").slice(0, 12).join("\n    ")}`];
  if (tried !== undefined) {
    const file = join(kept, `${part.name}-${name.replace(":", "-")}.txt`);
    mkdirSync(kept, { recursive: true });
    writeFileSync(file, tried);
    lines.push(`  what was tried is in ${file}`);
  }
  lines.push(`  repeated by: npm run fuzz -- --only ${part.name} --case ${name}`);
  return lines.join("\n");
}
