/** `mullion lsp`: the language server, for any editor. */
import { ToolProblem } from "../../tool-problem.ts";
import type { Command } from "../command.ts";

export const lsp: Command = {
  name: "lsp",
  about: "Run the language server, for an editor to talk to.",
  arguments: [],
  options: [{ flags: "--stdio", about: "talk over standard input and output" }],
  examples: [{ line: "lsp --stdio", shows: "what an editor starts; it ends when its input does" }],
  run: async (_words, options) => {
    if (options.stdio !== true) throw new ToolProblem("the language server talks over standard input and output only: mullion lsp --stdio");
    // An editor that is gone needs no server.
    process.stdout.on("error", () => process.exit(1));
    try {
      await import("../../lsp/main.ts");
    } catch (error) {
      const missing = String((error as NodeJS.ErrnoException).code).endsWith("MODULE_NOT_FOUND");
      throw missing ? new ToolProblem("the language server is not there: server.js has to stand beside mullion.js") : error;
    }
    return 0;
  },
};
