/** What is said of an error that ends a command. Never what the error itself says, unless it is known to hold no code. */
import { BrokenInvariant } from "../../shared/must.ts";
import { ToolProblem } from "../tool-problem.ts";

export function failure(error: unknown): string {
  if (error instanceof ToolProblem) return error.message;
  if (error instanceof BrokenInvariant) return internal(error, error.message);
  return internal(error, error instanceof Error ? error.name : "no reason was given");
}

/** The places in the program are said, for a report; the words of an unforeseen error may quote a code and are not. */
function internal(error: unknown, what: string): string {
  const places = error instanceof Error ? (error.stack ?? "").split("\n").filter(line => /^\s+at /.test(line)) : [];
  return [`this is a fault of Mullion, not of your text: ${what}`, ...places.slice(0, 12)].join("\n");
}
