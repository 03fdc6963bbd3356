// One running VS Code from .ci/editor-host.mjs: settings and extensions of its own, a local address, and an end.
import { execFileSync, spawn } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

const quietSettings = {
  "chat.disableAIFeatures": true,
  "extensions.autoCheckUpdates": false,
  "extensions.autoUpdate": false,
  "git.openRepositoryInParentFolders": "never",
  "telemetry.telemetryLevel": "off",
  "workbench.secondarySideBar.defaultVisibility": "hidden",
  "workbench.startupEditor": "none",
  "workbench.tips.enabled": false,
  "security.workspace.trust.startupPrompt": "never",
  "security.workspace.trust.banner": "never",
};

/**
 * Installs a packed extension into `extensions`, as VS Code's own command line does.
 * @throws with VS Code's words when it refuses the package
 */
export function installExtension(host, vsix, extensions) {
  const data = mkdtempSync(join(tmpdir(), "mullion-install-"));
  try {
    const args = ["--install-extension", vsix, "--extensions-dir", extensions, "--server-data-dir", data];
    const said = execFileSync(host.node, ["out/server-main.js", ...args, "--accept-server-license-terms"], {
      cwd: host.folder,
      env: ownEnvironment(),
      encoding: "utf8",
      stdio: ["ignore", "pipe", "pipe"],
    });
    if (!said.includes("was successfully installed")) throw new Error(`VS Code did not install ${vsix}: ${said}`);
  } finally {
    rmSync(data, { recursive: true, force: true, maxRetries: 5 });
  }
}

/**
 * Starts VS Code and waits until it listens.
 * @param {object} host as prepareHost returns it
 * @param {{ extensions?: string, settings?: object, trust?: boolean, port?: number, token?: string, log?: (line: string) => void }} [options]
 *   `extensions` is a folder of installed extensions; with `trust` no folder is trusted until the user says so, otherwise all are;
 *   `token` is what an address must hold to be answered
 */
export async function startEditor(host, options = {}) {
  const data = mkdtempSync(join(tmpdir(), "mullion-vscode-"));
  mkdirSync(join(data, "data/User"), { recursive: true });
  writeFileSync(join(data, "data/User/settings.json"), JSON.stringify({ ...quietSettings, ...options.settings }, null, 2));

  const args = ["out/server-main.js", "--host", "127.0.0.1", "--port", String(options.port ?? 0), "--server-data-dir", data];
  args.push(...(options.token ? ["--connection-token", options.token] : ["--without-connection-token"]));
  args.push("--accept-server-license-terms", "--disable-telemetry");
  // Without this the built workbench ignores the test arguments in its address, and says nothing.
  args.push("--enable-smoke-test-driver");
  if (!options.trust) args.push("--disable-workspace-trust");
  if (options.extensions) args.push("--extensions-dir", options.extensions);
  const server = spawn(host.node, args, { cwd: host.folder, env: ownEnvironment(), detached: true, stdio: ["ignore", "pipe", "pipe"] });

  async function stop() {
    try {
      process.kill(-server.pid, "SIGKILL");
    } catch {
      // It has ended by itself.
    }
    rmSync(data, { recursive: true, force: true, maxRetries: 10, retryDelay: 100 });
  }

  try {
    const port = await listening(server, options.log ?? (() => {}));
    return {
      port,
      data,
      server,
      stop,
      address: (open, payload) => address(port, { ...open, ...(options.token && { tkn: options.token }) }, payload),
    };
  } catch (error) {
    await stop();
    throw error;
  }
}

/** The server process says on its standard output which port it has. */
function listening(server, log) {
  return new Promise((resolve, reject) => {
    const tooLong = setTimeout(() => reject(new Error("VS Code's server did not start within 30 s")), 30_000);
    let said = "";
    function read(chunk) {
      said += chunk;
      log(`[server] ${String(chunk).trimEnd()}`);
      const port = /agent listening on (\d+)/.exec(said)?.[1];
      if (!port) return;
      clearTimeout(tooLong);
      resolve(Number(port));
    }
    server.stdout.on("data", read);
    server.stderr.on("data", read);
    server.on("exit", status => {
      clearTimeout(tooLong);
      reject(new Error(`VS Code's server ended with status ${status}: ${said}`));
    });
  });
}

/** @param open `{ folder }` or `{ workspace }`, absolute paths, and the token; @param payload pairs of names and values for the workbench */
function address(port, open, payload = []) {
  const query = new URLSearchParams(open);
  if (payload.length > 0) query.set("payload", JSON.stringify(payload));
  return `http://localhost:${port}/?${query}`;
}

/** What a VS Code around this process has set would mislead the one that is started. */
function ownEnvironment() {
  const env = { ...process.env };
  for (const name of ["ELECTRON_RUN_AS_NODE", "VSCODE_IPC_HOOK_CLI", "NODE_OPTIONS", "VSCODE_PROXY_URI"]) delete env[name];
  return env;
}
