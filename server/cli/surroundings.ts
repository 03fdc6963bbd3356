/** What a command may use of the world around it: passed in, so that a test can give its own. */
import type { Day } from "../../shared/site/site.ts";

export interface Surroundings {
  /** The working folder, absolute. */
  readonly cwd: string;
  /** Standard output: results and findings. */
  readonly out: (text: string | Uint8Array) => void;
  /** Standard error: problems of the tool. */
  readonly err: (text: string) => void;
  /** Standard output takes colour. */
  readonly colour: boolean;
  /** All of standard input, as text. */
  readonly readInput: () => string;
  /** Standard input line by line, as it is typed; undefined where it is no terminal. */
  readonly typedLines: (() => Iterable<string>) | undefined;
  /** The file of an identity that opens sealed files, as the environment names it. */
  readonly identity?: string | undefined;
  /** Asks for a secret on the terminal, without showing it; undefined is answered where there is none. */
  readonly askHidden?: (question: string) => Promise<string | undefined>;
  /** The day that is today, by the local clock. */
  readonly today: () => Day;
}
