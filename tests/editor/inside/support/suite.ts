/** A list of tests that runs inside the extension host and says how it went. Knows neither Node nor a browser. */
import * as vscode from "vscode";

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
 * Runs the tests in order, each in what the ones before have left, and gives `report` the results. In a browser VS Code now and then
 * reads its workspace before it can read any file, and then has no folder: that is reported as "no folders" instead.
 * @throws when any of them fails, or when there are no folders to run them in
 */
export async function runAll(report: (results: readonly Result[] | "no folders") => void, tests: readonly Test[]): Promise<void> {
  if (!vscode.workspace.workspaceFolders?.length) {
    report("no folders");
    throw new Error("VS Code has come up without its folders");
  }
  const results: Result[] = [];
  for (const one of tests) {
    const started = Date.now();
    const failure = await failureOf(one);
    const result = { name: one.name, ms: Date.now() - started, ...(failure !== undefined && { failure }) };
    results.push(result);
    say(`${failure === undefined ? "✓" : "✗"} ${result.name} (${result.ms} ms)`);
    for (const line of failure?.split("\n").slice(0, 30) ?? []) say(`    ${line}`);
  }
  report(results);
  if (results.some(result => result.failure !== undefined)) throw new Error("not everything passed");
}

/** The launcher passes on lines that begin so, and no other of the many that VS Code says. */
export function say(line: string): void {
  console.log(`│ ${line}`);
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
