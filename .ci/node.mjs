// Starts the project's own Node on any machine that has npm and some Node, however old.
// Plain JavaScript that Node 14 and later can read: it runs before anything is installed.
import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, lstatSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { delimiter, dirname, join, resolve } from "node:path";
import { fileURLToPath } from "node:url";

export const root = resolve(dirname(fileURLToPath(import.meta.url)), "..");
const windows = process.platform === "win32";

/** The lock file's digest, kept beside what was installed from it: installing again is needed only when it differs. */
function installNeeded() {
  const stamp = join(root, "node_modules", ".mullion-lock");
  const digest = createHash("sha256")
    .update(readFileSync(join(root, "package-lock.json")))
    .digest("hex");
  return { stamp, digest, needed: !existsSync(stamp) || readFileSync(stamp, "utf8") !== digest };
}

/** Installs what the lock file names, if that has not been done. Exits with npm's status when it fails. */
export function install() {
  const { stamp, digest, needed } = installNeeded();
  if (!needed) return;
  // npm empties the folder first, and through a link it would empty somebody else's.
  const modules = dirname(stamp);
  if (existsSync(modules) && lstatSync(modules).isSymbolicLink()) {
    console.error(
      "node_modules is a link, and what it leads to is not what package-lock.json names: remove the link, or run `npm ci` there",
    );
    process.exit(1);
  }
  console.log("Installing what package-lock.json names …");
  const npm = spawnSync(windows ? "npm.cmd" : "npm", ["ci", "--no-audit", "--no-fund", "--loglevel=error"], {
    cwd: root,
    stdio: "inherit",
    shell: windows,
  });
  if (npm.status !== 0) process.exit(npm.status || 1);
  mkdirSync(dirname(stamp), { recursive: true });
  writeFileSync(stamp, digest);
}

/** Runs a program with the project's Node and tools first on the path. Returns its exit status. */
export function run(program, args, options) {
  const bin = join(root, "node_modules", ".bin");
  const nodeBin = join(root, "node_modules", "node", "bin");
  const env = Object.assign({}, process.env, { PATH: [nodeBin, bin, process.env.PATH].join(delimiter) }, options?.env);
  const done = spawnSync(program, args, { cwd: options?.cwd || root, stdio: "inherit", env, shell: windows });
  if (done.error) console.error(`cannot start ${program}: ${done.error.message}`);
  return done.status === null ? 1 : done.status;
}
