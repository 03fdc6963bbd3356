/** `mullion replay`: a simulated keypad that takes keys and says what it made of them. */
import type { Command } from "../command.ts";

export const replay: Command = {
  name: "replay",
  about: "Type keys at a simulated keypad: what it takes, what it refuses and why, and what it then holds.",
  arguments: [{ name: "<model-file>", about: "the file of the keypad's model" }],
  options: [
    { flags: "--model <id>", about: "the model, where the file has several" },
    { flags: "--keys <keys>", about: 'what is typed, written as in a model: "OK 24680 OK 33 OK" (default: read from standard input)' },
    { flags: "--from <file>", about: "start from what this site or fitted record says (default: from factory-new)" },
    { flags: "--keypad <id>", about: "the keypad of that record, where it has several" },
    { flags: "--format <format>", about: "how it is written", choices: ["text", "json"], fallback: "text" },
  ],
  sealed: "needs",
  examples: [
    {
      line: 'replay samples/models/dunlin-3.mullion --keys "OK 24680 OK 7 4 01 48291 OK OK OK"',
      shows: "enters programming mode, puts a code into slot 01 of relay 1, and leaves",
    },
  ],
  run: async ([file = ""], options, around) => {
    const { replayKeys } = await import("../replay/replay-keys.ts");
    return replayKeys(file, options, around);
  },
};
