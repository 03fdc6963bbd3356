/** The command line as the argument library knows it, made from the list of commands. */
import { CommanderError, InvalidArgumentError, Option, Command as Parser } from "commander";
import { visibleLines } from "../../shared/sheet/visible.ts";
import type { Command, CommandOption, ExitStatus, OptionValues } from "./command.ts";
import { isDay } from "./day.ts";
import { identityOption } from "./identity-option.ts";
import { meant } from "./nearest.ts";
import { runCommand } from "./run-command.ts";
import type { Surroundings } from "./surroundings.ts";
import { version } from "./version.ts";

/** Reads the words behind `mullion` and runs the command that they name. */
export async function runProgram(words: readonly string[], commands: readonly Command[], world: Surroundings): Promise<ExitStatus> {
  // Whatever is said to a person may have a label in it, and a label may hold what steers a terminal.
  const around: Surroundings = { ...world, err: text => world.err(visibleLines(text)) };
  let status: ExitStatus = 0;
  const program = withManners(new Parser("mullion"), around)
    .description("Checks the text of door keypads, and writes what is to be typed at them.")
    .version(`mullion ${version}`, "--version", "print the version")
    .helpOption("-h, --help", "print this help")
    .helpCommand(false)
    .addHelpText("after", "\nmullion COMMAND --help says more, with examples.")
    .showSuggestionAfterError(true);
  // The others are needed for the list and for suggestions only.
  const line = asOptions(words, commands);
  const named = commands.filter(({ name }) => name === line[0]);
  for (const command of named.length > 0 ? named : commands)
    addCommand(program, command, around, async run => {
      status = await run();
    });
  // Without a word there is nothing to do but say what could be done.
  if (words.length === 0) {
    around.err(program.helpInformation());
    return 2;
  }
  try {
    await program.parseAsync(line, { from: "user" });
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? 0 : 2;
    throw error;
  }
  return status;
}

/** `help sheet` is `sheet --help`; of a command that is not there the help cannot be shown, and the word is told instead. */
function asOptions(words: readonly string[], commands: readonly Command[]): string[] {
  const [first = "", second] = words;
  if (first === "help") return second === undefined ? ["--help"] : asOptions([second, "--help"], commands);
  return first.startsWith("-") || commands.some(({ name }) => name === first) ? [...words] : [first];
}

function addCommand(program: Parser, command: Command, around: Surroundings, go: (run: () => Promise<ExitStatus>) => Promise<void>): void {
  const parser = withManners(program.command(command.name), around)
    .description(command.about)
    .helpOption("-h, --help", "print this help")
    .addHelpText("after", examplesOf(command));
  for (const argument of command.arguments) parser.argument(argument.name, argument.about);
  for (const option of [...command.options, ...(command.sealed ? [identityOption] : [])]) parser.addOption(optionFor(option));
  parser.action((...given: unknown[]) => {
    const options = given[command.arguments.length] as OptionValues;
    const words = given.slice(0, command.arguments.length).flat();
    const texts = words.filter(word => typeof word === "string");
    return go(() => runCommand(command, texts, options, around));
  });
}

/** No exit and no writing of its own: both are left to the caller. */
function withManners(parser: Parser, around: Surroundings): Parser {
  return parser.exitOverride().configureOutput({
    writeOut: around.out,
    writeErr: around.err,
    getOutHasColors: () => around.colour,
    outputError: (text, write) => write(`mullion: ${text.replace(/^error: /, "")}`),
  });
}

function optionFor({ flags, about, choices, fallback, repeated, day }: CommandOption): Option {
  const option = new Option(flags, choices ? `${about}: ${choices.join(", ")}` : about);
  if (fallback !== undefined) option.default(fallback);
  option.argParser((value: string, before: unknown) => {
    if (choices && !choices.includes(value)) throw new InvalidArgumentError(`It is one of ${choices.join(", ")}${meant(value, choices)}.`);
    if (day && !isDay(value)) throw new InvalidArgumentError("It is a day of the calendar, written like 2027-03-31.");
    return repeated ? [...(Array.isArray(before) ? before : []), value] : value;
  });
  return option;
}

function examplesOf(command: Command): string {
  const lines = command.examples.map(({ line, shows }) => `  mullion ${line}\n      ${shows}`);
  return `\nExamples (they work on the samples that come with Mullion):\n${lines.join("\n")}`;
}
