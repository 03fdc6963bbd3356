/** The entry of `mullion`: reads the words, runs one command, and turns every ending into an exit status. */
import { parse } from "node:path";
import { visibleLines } from "../../shared/sheet/visible.ts";
import { takesColour } from "./colour.ts";
import type { ExitStatus } from "./command.ts";
import { commands } from "./commands/index.ts";
import { dayOf } from "./day.ts";
import { failure } from "./failure.ts";
import { runCommand } from "./run-command.ts";
import { isTerminal, readInput, typedLines, write } from "./standard-streams.ts";
import type { Surroundings } from "./surroundings.ts";
import { version } from "./version.ts";
import { plainWords } from "./words.ts";

const around: Surroundings = {
  cwd: workingFolder(),
  out: content => write(1, content),
  err: text => write(2, text),
  colour: takesColour(process.env, isTerminal(1)),
  readInput,
  get typedLines() {
    return isTerminal(0) ? typedLines : undefined;
  },
  identity: process.env.MULLION_IDENTITY || undefined,
  askHidden: async question => (await import("../seal/terminal.ts")).askHidden(question),
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

run(process.argv.slice(2)).then(
  status => {
    process.exitCode = status;
  },
  (error: unknown) => {
    around.err(visibleLines(`mullion: ${failure(error)}\n`));
    process.exitCode = 2;
  },
);

async function run(words: readonly string[]): Promise<ExitStatus> {
  if (words.length === 1 && words[0] === "--version") {
    around.out(`mullion ${version}\n`);
    return 0;
  }
  const plain = plainWords(words, commands);
  if (plain) return runCommand(plain.command, plain.operands, plain.options, around);
  const { runProgram } = await import("./program.ts");
  return runProgram(words, commands, around);
}
