/** `mullion explain`: what a finding means, why it matters, an example that triggers it and one that does not. */
import { ToolProblem } from "../../tool-problem.ts";
import type { Command } from "../command.ts";
import { meant } from "../nearest.ts";

export const explain: Command = {
  name: "explain",
  about: "Explain a finding; without a name, list all of them.",
  arguments: [{ name: "[code]", about: "the finding's name, such as slot-clash" }],
  options: [],
  examples: [
    { line: "explain slot-clash", shows: "the whole explanation of one finding" },
    { line: "explain", shows: "the names of all findings" },
  ],
  run: async ([code], _options, around) => {
    const [{ checks }, { explain: explanation }, { warnings }, { explainWarning }] = await Promise.all([
      import("../../../shared/checks/index.ts"),
      import("../../../shared/checks/explain.ts"),
      import("../../../shared/review/warnings/index.ts"),
      import("../../../shared/review/explain.ts"),
    ]);
    const names: readonly string[] = [...checks, ...warnings].map(each => each.code);
    if (code === undefined) {
      around.out(`${[...names].sort().join("\n")}\n`);
      return 0;
    }
    if (!names.includes(code)) throw new ToolProblem(`no finding is called ${code}${meant(code, names)}; mullion explain lists them`);
    around.out(`${(explanation(code) || explainWarning(code)).trimEnd()}\n`);
    return 0;
  },
};
