// Things that are fetched once and kept outside the repository: VS Code builds and a Chromium.
import { existsSync, mkdirSync, mkdtempSync, renameSync, rmSync } from "node:fs";
import { homedir } from "node:os";
import { dirname, join, resolve } from "node:path";

/** Where they are kept: $MULLION_VSCODE_CACHE, else the user's cache folder. */
export function cacheFolder() {
  const own = process.env.MULLION_VSCODE_CACHE;
  return own ? resolve(own) : join(process.env.XDG_CACHE_HOME || join(homedir(), ".cache"), "mullion");
}

/**
 * The cached folder `name`, made by `make(folder)` where it is not there yet. It is made under another name and then
 * renamed, so a run that is interrupted leaves nothing half-made and two runs at once do not disturb each other.
 */
export async function cached(name, make) {
  const target = join(cacheFolder(), name);
  if (existsSync(target)) return target;
  mkdirSync(dirname(target), { recursive: true });
  const making = mkdtempSync(`${target}.making-`);
  try {
    await make(making);
    if (!existsSync(target)) renameSync(making, target);
  } catch (error) {
    if (!existsSync(target)) throw error;
  } finally {
    rmSync(making, { recursive: true, force: true });
  }
  return target;
}
