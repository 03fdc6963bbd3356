/**
 * Standard input, output and error, read and written at once. Node's own streams take longer to load than a small site to parse;
 * they are left to what really needs them: a terminal, a full pipe that does not wait, the language server.
 */
import { fstatSync, readFileSync, readSync, writeSync } from "node:fs";
import { systemReason, ToolProblem } from "../tool-problem.ts";

type Descriptor = 1 | 2;

/** Those that have been handed over to Node's stream, which then has to take all that follows. */
const handedOver = new Set<Descriptor>();

/**
 * Writes all of it. A reader that has seen enough (`mullion check | head`) ends the program quietly.
 *
 * @throws ToolProblem where standard output takes no more, such as a full disk
 */
export function write(descriptor: Descriptor, content: string | Uint8Array): void {
  const bytes = typeof content === "string" ? Buffer.from(content) : content;
  let at = 0;
  try {
    if (!handedOver.has(descriptor)) while (at < bytes.length) at += writeSync(descriptor, bytes, at);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === "EPIPE") process.exit();
    if (code === "EAGAIN") handOver(descriptor);
    else if (descriptor === 1) throw new ToolProblem(`cannot write to standard output: ${systemReason(error)}`);
    else return;
  }
  if (handedOver.has(descriptor)) streamOf(descriptor).write(bytes.subarray(at));
}

function handOver(descriptor: Descriptor): void {
  handedOver.add(descriptor);
  streamOf(descriptor).on("error", (error: NodeJS.ErrnoException) => {
    if (error.code === "EPIPE") process.exit();
    process.exitCode = 2;
  });
}

function streamOf(descriptor: Descriptor): NodeJS.WriteStream {
  return descriptor === 1 ? process.stdout : process.stderr;
}

/** Standard input or output is a terminal. Only what could be one is asked. */
export function isTerminal(descriptor: 0 | 1): boolean {
  try {
    if (!fstatSync(descriptor).isCharacterDevice()) return false;
    return process.getBuiltinModule("node:tty").isatty(descriptor);
  } catch {
    return false;
  }
}

/** @throws ToolProblem where there is none, or it is no text that can be read at once */
export function readInput(): string {
  try {
    return readFileSync(0, "utf8");
  } catch (error) {
    throw new ToolProblem(`cannot read standard input: ${systemReason(error)}`);
  }
}

/** What is typed at a terminal, a line at a time: a terminal hands over no more than that. */
export function* typedLines(): Iterable<string> {
  const buffer = Buffer.alloc(4096);
  for (;;) {
    let length = 0;
    try {
      length = readSync(0, buffer);
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== "EOF") throw new ToolProblem(`cannot read standard input: ${systemReason(error)}`);
    }
    if (length === 0) return;
    yield buffer.toString("utf8", 0, length);
  }
}
