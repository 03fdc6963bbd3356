/** Files of identities: made, plain or under a passphrase, and asked for the recipient that others seal for. */
import type { ExitStatus, OptionValues } from "../cli/command.ts";
import { textOf } from "../cli/command.ts";
import type { Surroundings } from "../cli/surroundings.ts";
import { fileIdOf, isThere } from "../files.ts";
import { ToolProblem } from "../tool-problem.ts";
import { writeFileWhole } from "../write-file.ts";
import { keysAtHand } from "./identities.ts";
import { age } from "./load.ts";
import { newPassphrase } from "./seal-file.ts";
import { mayHoldSecrets } from "./unseal-file.ts";

/** @throws ToolProblem for words that name nothing to do, and where a file cannot be read or written */
export async function atIdentities(words: readonly string[], options: OptionValues, around: Surroundings): Promise<ExitStatus> {
  const [what, path, ...more] = words;
  if (what === "new" && path === undefined) return makeIdentity(options, around);
  if (what === "show" && path !== undefined && more.length === 0) return showRecipients(path, around);
  throw new ToolProblem("say mullion keys new -o FILE, or mullion keys show FILE");
}

async function makeIdentity(options: OptionValues, around: Surroundings): Promise<ExitStatus> {
  const output = textOf(options, "output");
  if (output === undefined) throw new ToolProblem("say where the identity is to be kept: mullion keys new -o FILE");
  const target = fileIdOf(output, around.cwd);
  // Whatever is sealed for the old one would be lost with it.
  if (isThere(target)) throw new ToolProblem(`${output} is there already; an identity is not written over anything`);
  mayHoldSecrets(output, target, options);
  const { newIdentity, recipientOf, sealText, armored } = await age();
  const passphrase = options.passphrase === true ? await newPassphrase(output, around) : undefined;
  const identity = await newIdentity();
  const recipient = await recipientOf(identity);
  const text = `# created: ${around.today()}\n# public key: ${recipient}\n${identity}\n`;
  writeFileWhole(target, passphrase === undefined ? text : armored(await sealText(text, { passphrase })), output);
  around.err(
    `mullion: the identity is in ${output}${passphrase === undefined ? "" : ", under its passphrase"}. Keep it where nobody else reads it, and a copy where it cannot burn: without it nothing that is sealed for it opens\n`,
  );
  around.out(`${recipient}\n`);
  return 0;
}

async function showRecipients(path: string, around: Surroundings): Promise<ExitStatus> {
  const { recipientOf } = await age();
  const { identities } = await keysAtHand({ cwd: around.cwd, identity: path, askHidden: around.askHidden });
  for (const identity of identities) around.out(`${await recipientOf(identity)}\n`);
  return 0;
}
