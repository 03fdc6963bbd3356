/** Files and the day from Node. */
import { randomBytes } from "node:crypto";
import { readdir, stat } from "node:fs/promises";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { isMullion } from "../../shared/site/paths.ts";
import { dayOf } from "../cli/day.ts";
import { readText } from "../files.ts";
import type { Host } from "./host.ts";
import { SealedFiles } from "./sealed-files.ts";
import { fileIdOf } from "./uri.ts";

export const nodeHost: Host = {
  reads: scheme => scheme === "file",
  today: () => dayOf(new Date()),
  random: count => randomBytes(count),
  sealed: new SealedFiles(),
  async read(file) {
    const found = readText(fileURLToPath(file));
    return "text" in found ? found.text : undefined;
  },
  find: folder => filesUnder(fileURLToPath(folder)),
};

/** The same files that `mullion check` finds in a folder, a folder at a time so that answers can be given in between. */
async function filesUnder(folder: string): Promise<string[]> {
  const found: string[] = [];
  for (const name of await readdir(folder, { withFileTypes: true }).catch(() => [])) {
    const path = join(folder, name.name);
    if (name.isDirectory()) {
      if (!name.name.startsWith(".") && name.name !== "node_modules") for (const file of await filesUnder(path)) found.push(file);
    } else if (isMullion(name.name) && (name.isFile() || (await isFile(path)))) found.push(fileIdOf(pathToFileURL(path).href));
  }
  return found;
}

async function isFile(path: string): Promise<boolean> {
  return (await stat(path).catch(() => undefined))?.isFile() ?? false;
}
