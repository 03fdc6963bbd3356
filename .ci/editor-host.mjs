// A real VS Code from the npm registry alone: the package code-server carries VS Code's own server and workbench.
// The floor is the oldest build that engines.vscode allows and the registry has; the newest is the newest tried.
import { execFileSync } from "node:child_process";
import { chmodSync, existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { cached } from "./cache.mjs";

/** `node` is the Node that this build is run with: with Node 24 the floor's extension host hangs on extensions that are ES modules. */
export const hosts = {
  floor: { vscode: "1.103.2", package: "4.103.2", node: "22.23.3" },
  newest: { vscode: "1.139.1", package: "4.139.1", node: "24.21.0" },
};

/**
 * Makes a host ready, fetching it where it is not cached yet.
 * @param {"floor" | "newest"} name
 * @returns {Promise<{ name: string, vscode: string, folder: string, node: string }>} `folder` holds out/server-main.js, `node` is a program
 * @throws when the registry cannot be reached or the build is not what it should be
 */
export async function prepareHost(name) {
  const host = hosts[name];
  if (!host) throw new Error(`no such host: ${name}; there are ${Object.keys(hosts).join(", ")}`);
  const [folder, node] = await Promise.all([
    cached(`vscode-${host.package}`, making => unpackVsCode(making, host)),
    cached(`node-${host.node}`, making => unpackNode(making, host.node)),
  ]);
  return { name, vscode: host.vscode, folder, node: join(node, process.platform === "win32" ? "node.exe" : "node") };
}

async function unpackVsCode(making, host) {
  npmPack(making, `code-server@${host.package}`);
  renameSync(join(making, "package/lib/vscode"), join(making, "vscode"));
  rmSync(join(making, "package"), { recursive: true });
  for (const name of readdirSync(join(making, "vscode"))) renameSync(join(making, "vscode", name), join(making, name));
  rmSync(join(making, "vscode"), { recursive: true });

  const found = JSON.parse(readFileSync(join(making, "package.json"), "utf8")).version;
  if (found !== host.vscode) throw new Error(`code-server ${host.package} carries VS Code ${found}, not ${host.vscode}`);
  // Assistants and sign-in have no part in the tests, and are half of the download's weight.
  for (const name of ["copilot", "github-authentication", "microsoft-authentication", "mermaid-markdown-features"])
    rmSync(join(making, "extensions", name), { recursive: true, force: true });
  // No native module is built: each that is missing has a fallback of its own in VS Code.
  npm(["install", "--omit=dev", "--ignore-scripts", "--no-audit", "--no-fund", "--loglevel=error"], making);
  addSearchProgram(making);
}

/** Older builds fetch ripgrep (which looks files up) in an install script; the program itself is in a package of its own. */
function addSearchProgram(making) {
  const ripgrep = join(making, "node_modules/@vscode/ripgrep");
  if (!existsSync(ripgrep) || existsSync(join(ripgrep, "bin/rg"))) return;
  const apart = join(making, "ripgrep.making");
  mkdirSync(apart);
  npmPack(apart, "@vscode/ripgrep-universal@1.18.0");
  mkdirSync(join(ripgrep, "bin"), { recursive: true });
  renameSync(join(apart, `package/bin/${process.platform}-${process.arch}/rg`), join(ripgrep, "bin/rg"));
  chmodSync(join(ripgrep, "bin/rg"), 0o755);
  rmSync(apart, { recursive: true });
}

async function unpackNode(making, version) {
  const windows = process.platform === "win32";
  npmPack(making, `node-${windows ? "win" : process.platform}-${process.arch}@${version}`);
  const program = windows ? "node.exe" : "node";
  renameSync(join(making, "package/bin", program), join(making, program));
  rmSync(join(making, "package"), { recursive: true });
}

/** Fetches one package and unpacks it to `making`/package. npm compares the archive with the registry's digest. */
function npmPack(making, what) {
  const name = npm(["pack", "--silent", what], making).trim().split("\n").at(-1);
  execFileSync("tar", ["xzf", name], { cwd: making });
  rmSync(join(making, name));
}

function npm(args, cwd) {
  const windows = process.platform === "win32";
  const manifest = join(cwd, "package.json");
  // Without a manifest npm would look for one in the folders above.
  if (!existsSync(manifest) && args[0] !== "pack") writeFileSync(manifest, '{ "private": true }\n');
  return execFileSync(windows ? "npm.cmd" : "npm", args, { cwd, encoding: "utf8", shell: windows, stdio: ["ignore", "pipe", "inherit"] });
}
