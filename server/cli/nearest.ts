/** "Did you mean …" for words of the command line. */
import { nearestName } from "../../shared/checks/nearest.ts";

/** What to put behind a refusal, with a space before it; empty where nothing is near. */
export function meant(typed: string, words: Iterable<string>): string {
  const word = nearestName(typed, words);
  return word === undefined ? "" : ` (did you mean ${word}?)`;
}
