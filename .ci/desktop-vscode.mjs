// A desktop VS Code for the tests: the one that $MULLION_VSCODE names, else the current one where it can be fetched and has a screen
// to appear on, else none. `MULLION_VSCODE=none` uses none.
import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";
import { join } from "node:path";
import { downloadAndUnzipVSCode, resolveCliArgsFromVSCodeExecutablePath } from "@vscode/test-electron";
import { cacheFolder } from "./cache.mjs";

/**
 * @returns the path of its program, or undefined where the tests shall use the builds of .ci/editor-host.mjs
 * @throws when one is named and is not there
 */
export async function desktopVsCode() {
  const named = process.env.MULLION_VSCODE;
  if (named === "none") return undefined;
  if (named) {
    if (!existsSync(named)) throw new Error(`MULLION_VSCODE names ${named}, which is not there`);
    return named;
  }
  const screen = process.platform !== "linux" || process.env.DISPLAY || process.env.WAYLAND_DISPLAY;
  if (!screen) return undefined;
  try {
    return await downloadAndUnzipVSCode({ cachePath: join(cacheFolder(), "desktop"), timeout: 5000 });
  } catch {
    return undefined;
  }
}

export function installIntoDesktop(program, vsix, extensions) {
  const [cli, ...args] = resolveCliArgsFromVSCodeExecutablePath(program);
  const done = spawnSync(cli, [...args, `--extensions-dir=${extensions}`, "--install-extension", vsix], {
    encoding: "utf8",
    shell: process.platform === "win32",
  });
  if (done.status !== 0) throw new Error(`VS Code did not install ${vsix}: ${done.stdout}${done.stderr}`);
}
