/** The identities at hand: from a file, plain or under a passphrase of its own, or asked for on the terminal. */
import { readFileSync, statSync } from "node:fs";
import { fileIdOf } from "../files.ts";
import { systemReason, ToolProblem } from "../tool-problem.ts";
import type { Keys } from "./age.ts";
import { isArmored, isBinary } from "./beginnings.ts";
import { age } from "./load.ts";

/** Where an identity is to come from, and who can be asked. */
export interface KeySource {
  readonly cwd: string;
  /** A file, or `-` for the terminal; undefined where no identity was given. */
  readonly identity?: string | undefined;
  readonly askHidden?: ((question: string) => Promise<string | undefined>) | undefined;
}

/** The largest file of identities, in bytes: a sealed file that was named by mistake is not read for keys. */
const largestIdentities = 1024 * 1024;

/**
 * The keys that were given; none where none were.
 *
 * @throws ToolProblem where the file cannot be read or opened, or holds no identity
 */
export async function keysAtHand(source: KeySource): Promise<Keys> {
  const { identity } = source;
  if (identity === undefined) return { identities: [], passphrases: [] };
  if (identity === "-") return typedKeys(source);
  const bytes = readIdentities(identity, source.cwd);
  const passphrase = () => asked(source, `Passphrase of ${identity}: `, `${identity} is protected by a passphrase`);
  return { identities: await identitiesOf(bytes, identity, passphrase), passphrases: [] };
}

/**
 * The identities that a file of that content holds.
 *
 * @param passphrase asked only where the file is protected by one
 * @throws ToolProblem where it cannot be opened, or holds no identity
 */
export async function identitiesOf(bytes: Buffer, shown: string, passphrase: () => Promise<string>): Promise<readonly string[]> {
  if (!isArmored(bytes) && !isBinary(bytes)) return identitiesIn(bytes.toString("utf8"), shown);
  const { openFile } = await age();
  const opened = await openFile(bytes, { identities: [], passphrases: [await passphrase()] });
  if ("bytes" in opened) return identitiesIn(new TextDecoder().decode(opened.bytes), shown);
  if (opened.failed === "no match") throw new ToolProblem(`the passphrase of ${shown} is wrong`);
  throw new ToolProblem(`the identity file ${shown} is damaged`);
}

/** An identity is told from a passphrase by how it begins. */
async function typedKeys(source: KeySource): Promise<Keys> {
  const typed = (await asked(source, "Identity or passphrase: ", "an identity is to be typed")).trim();
  if (!typed.toUpperCase().startsWith("AGE-SECRET-KEY-")) return { identities: [], passphrases: [typed] };
  return { identities: await identitiesIn(typed.toUpperCase(), "what was typed"), passphrases: [] };
}

/** @throws ToolProblem without a terminal, and where nothing is typed */
export async function asked({ askHidden }: KeySource, question: string, why: string): Promise<string> {
  if (!askHidden) throw new ToolProblem(`${why}, and there is no terminal to ask on`);
  const answer = await askHidden(question);
  if (answer === undefined) throw new ToolProblem(`${why}, and there is no terminal to ask on, or the question was broken off`);
  if (answer === "") throw new ToolProblem(`${why}, and nothing was typed`);
  return answer;
}

/** Lines of identities, with comments and empty lines between them, as the tools of the format write them. */
async function identitiesIn(text: string, shown: string): Promise<readonly string[]> {
  const { recipientOf } = await age();
  const lines = text
    .replace(/^\ufeff/, "")
    .split(/\r\n|[\r\n]/)
    .map(line => line.trim())
    .filter(line => line !== "" && !line.startsWith("#"));
  if (lines.some(line => /^-+BEGIN .*PRIVATE KEY/.test(line)))
    throw new ToolProblem(`${shown} holds a key for another use; an identity begins with AGE-SECRET-KEY-1 (mullion keys new)`);
  if (lines.length === 0) throw new ToolProblem(`${shown} holds no identity`);
  for (const line of lines)
    if ((await recipientOf(line)) === undefined)
      throw new ToolProblem(`${shown} holds something that is no identity, or is not whole; an identity begins with AGE-SECRET-KEY-1`);
  return lines;
}

function readIdentities(identity: string, cwd: string): Buffer {
  try {
    const path = fileIdOf(identity, cwd);
    const stats = statSync(path);
    if (stats.isDirectory()) throw new ToolProblem(`${identity} is a folder; name the file of the identity`);
    if (stats.size > largestIdentities) throw new ToolProblem(`${identity} is too large for a file of identities`);
    return readFileSync(path);
  } catch (error) {
    throw error instanceof ToolProblem ? error : new ToolProblem(`cannot read the identity file ${identity}: ${systemReason(error)}`);
  }
}
