/** Contenders take turns, each in a process of its own, so that whatever else the machine does meets all of them alike. */
import type { ChildProcess } from "node:child_process";
import { fork } from "node:child_process";
import { join } from "node:path";

export interface Contender {
  readonly name: string;
  /** Its module, from this folder. */
  readonly module: string;
  readonly lines: number;
  /** How often it runs for each round; 1 unless said. Slow ones run less often where this is below 1. */
  readonly share?: number;
}

export interface Times {
  /** Milliseconds of each run, without those that warm up. */
  readonly ms: readonly number[];
  /** Of these, what a processor was at work for all threads of the process; what else the machine does is not in it. */
  readonly cpuMs: readonly number[];
  /** What the last run says that it did. */
  readonly said: Readonly<Record<string, number>>;
}

/** Wanted of each: runs that only warm up, then so many rounds. */
export async function contend(contenders: readonly Contender[], warmUp: number, rounds: number): Promise<ReadonlyMap<string, Times>> {
  const running = await Promise.all(
    contenders.map(async contender => {
      const child = fork(join(import.meta.dirname, "runner.ts"), [join(import.meta.dirname, contender.module)], {
        execArgv: ["--disable-warning=ExperimentalWarning", "--disable-warning=MODULE_TYPELESS_PACKAGE_JSON"],
        stdio: ["ignore", "inherit", "inherit", "ipc"],
      });
      return { contender, child, ms: [] as number[], cpuMs: [] as number[], said: {} as Record<string, number> };
    }),
  );
  try {
    for (const { child, contender } of running) await ask(child, { lines: contender.lines });
    for (let round = -warmUp; round < rounds; round++) {
      for (const one of running) {
        const { share = 1 } = one.contender;
        // A slow one has its turns spread over the rounds, and at least one to warm up.
        if (share < 1 && Math.floor((round + warmUp) * share) === Math.floor((round + warmUp - 1) * share)) continue;
        const { ms, cpuMs, said } = await ask(one.child, {});
        if (round >= 0) {
          one.ms.push(ms ?? Number.NaN);
          one.cpuMs.push(cpuMs ?? Number.NaN);
        }
        one.said = said ?? {};
      }
    }
  } finally {
    for (const { child } of running) child.kill();
  }
  return new Map(running.map(({ contender, ms, cpuMs, said }) => [contender.name, { ms, cpuMs, said }]));
}

interface Answer {
  readonly ms?: number;
  readonly cpuMs?: number;
  readonly said?: Record<string, number>;
}

function ask(child: ChildProcess, message: object): Promise<Answer> {
  return new Promise((resolve, reject) => {
    const gone = (status: number | null) => reject(new Error(`a contender ended with status ${status}`));
    child.once("exit", gone);
    child.once("message", (answer: Answer) => {
      child.off("exit", gone);
      resolve(answer);
    });
    child.send(message);
  });
}

/** The middle one of the values, the mean of the two where their number is even. */
export function median(values: readonly number[]): number {
  return quantile(values, 0.5);
}

/** The value below which this part of them lies, between two of them in proportion. */
export function quantile(values: readonly number[], part: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  const at = (sorted.length - 1) * part;
  const [low, high] = [sorted[Math.floor(at)], sorted[Math.ceil(at)]];
  return low === undefined || high === undefined ? Number.NaN : low + (high - low) * (at - Math.floor(at));
}
