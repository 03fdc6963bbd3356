/** Runs a command, with the sealed files that it meets opened where an identity is at hand. */
import { ToolProblem } from "../tool-problem.ts";
import type { Unsealing } from "../unsealing.ts";
import { withSealedOpened } from "../unsealing.ts";
import type { Command, ExitStatus, OptionValues } from "./command.ts";
import { textOf } from "./command.ts";
import type { Surroundings } from "./surroundings.ts";

export async function runCommand(
  command: Command,
  words: readonly string[],
  options: OptionValues,
  around: Surroundings,
): Promise<ExitStatus> {
  const run = () => command.run(words, options, around);
  return command.sealed ? withSealedOpened(unsealingFor(command, textOf(options, "identity"), around), run) : run();
}

/** What opens sealed files is loaded when the first of them is met. */
function unsealingFor(command: Command, given: string | undefined, { cwd, identity, askHidden }: Surroundings): Unsealing {
  const goesOnShut = command.sealed === "names";
  const named = given ?? identity;
  if (named === undefined) return { goesOnShut };
  let open: Unsealing["open"];
  return {
    goesOnShut,
    open: async met => {
      try {
        open ??= (await import("../seal/open.ts")).opener({ cwd, identity: named, askHidden });
        return await open(met);
      } catch (error) {
        // What stands in the environment is for every site, and no reason to check none.
        if (error instanceof ToolProblem && goesOnShut && given === undefined) return { shut: error.message };
        throw error;
      }
    },
  };
}
