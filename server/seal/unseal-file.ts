/** Shows what is in a sealed file; puts it on the disk only where that was asked for. */
import { dirname } from "node:path";
import type { ExitStatus, OptionValues } from "../cli/command.ts";
import { textOf } from "../cli/command.ts";
import { repositoryOf } from "../cli/paths.ts";
import type { Surroundings } from "../cli/surroundings.ts";
import { fileIdOf, isFolder, readText, realFile } from "../files.ts";
import { ToolProblem } from "../tool-problem.ts";
import { writeFileWhole } from "../write-file.ts";
import { keyRing, openSealed, readSealed } from "./sealed-bytes.ts";

/** @throws ToolProblem where it does not open, or may not be written there; nothing is shown or written then */
export async function unsealFile(path: string, options: OptionValues, around: Surroundings): Promise<ExitStatus> {
  const output = textOf(options, "output");
  const target = output === undefined || output === "-" ? undefined : fileIdOf(output, around.cwd);
  if (target !== undefined) {
    if (isFolder(target)) throw new ToolProblem(`${output} is a folder; name the file to write`);
    if (target.endsWith(".age")) throw new ToolProblem(`${output} is the name of a sealed file; plain text is not written under it`);
    mayHoldSecrets(output ?? "", target, options);
  }
  const { file, bytes } = readSealed(path, around.cwd);
  const { text } = await openSealed(file, bytes, keyRing(textOf(options, "identity"), around), around.cwd);
  if (target === undefined) around.out(text);
  else {
    // A text that was worked on and not sealed yet, or another file altogether: what stands there may be all that there is of it.
    const there = readText(target);
    if (!("absent" in there) && !("text" in there && there.text === text))
      throw new ToolProblem(`${output} is there already, with something else in it; nothing is written over it`);
    writeFileWhole(target, text, output ?? target);
    around.out(`written to ${output}\n`);
    around.err(
      `mullion: ${output} holds codes in plain text: seal it again and remove it when you are done (mullion seal ${output} --remove)\n`,
    );
  }
  return 0;
}

/**
 * Where git would take it in with the next `git add`, a secret is written only if that was said. Links in the folder's path lead where
 * they lead.
 *
 * @throws ToolProblem inside a repository without `--into-git`
 */
export function mayHoldSecrets(shown: string, target: string, options: OptionValues): void {
  if (options.intoGit === true || repositoryOf(realFile(dirname(target))) === undefined) return;
  throw new ToolProblem(`${shown} is in a folder that git tracks; name a place outside of it, or say --into-git if that is meant`);
}
