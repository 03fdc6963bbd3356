/** The entry of `mullion`: reads the words, runs one command, and turns every ending into an exit status. */
import { readFileSync } from "node:fs";
import { parse } from "node:path";
import { systemReason, ToolProblem } from "../tool-problem.ts";
import { takesColour } from "./colour.ts";
import { commands } from "./commands/index.ts";
import { dayOf } from "./day.ts";
import { failure } from "./failure.ts";
import { runProgram } from "./program.ts";
import type { Surroundings } from "./surroundings.ts";

const around: Surroundings = {
  cwd: workingFolder(),
  out: text => void process.stdout.write(text),
  err: text => void process.stderr.write(text),
  colour: takesColour(process.env, process.stdout.isTTY === true),
  readInput: standardInput,
  today: () => dayOf(new Date()),
};

/** A shell may stand in a folder that has been removed; then only absolute paths lead anywhere. */
function workingFolder(): string {
  try {
    return process.cwd();
  } catch {
    return parse(process.execPath).root;
  }
}

function standardInput(): string {
  try {
    return readFileSync(0, "utf8");
  } catch (error) {
    throw new ToolProblem(`cannot read standard input: ${systemReason(error)}`);
  }
}

// A reader that has seen enough (`mullion check | head`) is no fault of ours.
for (const stream of [process.stdout, process.stderr])
  stream.on("error", (error: NodeJS.ErrnoException) => {
    if (error.code === "EPIPE") process.exit();
    process.exitCode = 2;
  });

runProgram(process.argv.slice(2), commands, around).then(
  status => {
    process.exitCode = status;
  },
  (error: unknown) => {
    around.err(`mullion: ${failure(error)}\n`);
    process.exitCode = 2;
  },
);
