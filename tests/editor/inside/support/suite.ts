/** A list of tests that runs inside the extension host and writes down how it went. */
import { writeFileSync } from "node:fs";
import { join } from "node:path";

export interface Result {
  readonly name: string;
  readonly ms: number;
  readonly failure?: string;
}

interface Test {
  readonly name: string;
  run(): Promise<void>;
}

/** A test that takes longer than this hangs. */
const limitMs = 25_000;

export function test(name: string, run: () => Promise<void>): Test {
  return { name, run };
}

/**
 * Runs the tests in order, each in what the ones before have left. The results go to `results.json` beside the suite.
 * @throws when any of them fails
 */
export async function runAll(tests: readonly Test[]): Promise<void> {
  const results: Result[] = [];
  for (const one of tests) {
    const started = Date.now();
    const failure = await failureOf(one);
    const result = { name: one.name, ms: Date.now() - started, ...(failure !== undefined && { failure }) };
    results.push(result);
    // The launcher passes on lines that begin so, and no other of the many that VS Code says.
    console.log(`│ ${failure === undefined ? "✓" : "✗"} ${result.name} (${result.ms} ms)`);
    for (const line of failure?.split("\n").slice(0, 30) ?? []) console.log(`│     ${line}`);
  }
  writeFileSync(join(__dirname, "results.json"), JSON.stringify(results));
  if (results.some(result => result.failure !== undefined)) throw new Error("not everything passed");
}

async function failureOf(one: Test): Promise<string | undefined> {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const tooLong = new Promise<string>(resolve => {
    timer = setTimeout(() => resolve(`it did not end within ${limitMs / 1000} s`), limitMs);
  });
  const ended = one.run().then(
    () => undefined,
    error => (error instanceof Error ? (error.stack ?? error.message) : String(error)),
  );
  const failure = await Promise.race([ended, tooLong]);
  clearTimeout(timer);
  return failure;
}
