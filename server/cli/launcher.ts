/**
 * Starts the command line. What was compiled of it is kept in the user's own cache folder, so that the next start is quicker.
 *
 * Node's own cache for compiled code is not enough: it keeps what is compiled when a file is loaded, before any of it has run, and
 * nearly all of a program is compiled after that, one function when it is first called.
 */
import { closeSync, fsyncSync, mkdirSync, openSync, readdirSync, readFileSync, renameSync, rmSync, writeSync } from "node:fs";
import { homedir } from "node:os";
import { join } from "node:path";
import { Script } from "node:vm";

const body = join(__dirname, "cli.js");
// It has no character beyond ASCII, which spares decoding it.
const source = readFileSync(body, "latin1");
// Its first line is its own hash: V8 itself tells one source from another by nothing but their length.
const hash = source.slice(2, source.indexOf("\n"));
// Each command keeps its own: what its first run compiled.
const command = /^[a-z]+$/.exec(process.argv[2] ?? "")?.[0] ?? "other";
const beginning = `${command}-${process.version}-${process.arch}-`;
const name = `${beginning}${hash}`;

const folder = cacheFolder();
const cachedData = folder === undefined ? undefined : kept(join(folder, name));
const script = new Script(`(function (require, load) {${source}\n})`, { filename: body, ...(cachedData && { cachedData }) });
if (folder !== undefined && (!cachedData || script.cachedDataRejected)) process.once("exit", () => keep(folder));

// What is loaded on demand is loaded from here: a script of its own may not.
script.runInThisContext()(require, (part: string) => import(part));

/** Never the common folder for temporary files: whoever may write a cache may decide what is run. */
function cacheFolder(): string | undefined {
  try {
    const caches = process.platform === "win32" ? process.env.LOCALAPPDATA : process.env.XDG_CACHE_HOME || join(homedir(), ".cache");
    return caches && join(caches, "mullion", "compiled");
  } catch {
    return undefined;
  }
}

function kept(file: string): Buffer | undefined {
  try {
    return readFileSync(file);
  } catch {
    return undefined;
  }
}

/** Written whole or not at all, for V8 trusts what it is given. Where it cannot be written, every start is like the first. */
function keep(folder: string): void {
  const making = join(folder, `${name}.${process.pid}`);
  try {
    mkdirSync(folder, { recursive: true, mode: 0o700 });
    const file = openSync(making, "wx", 0o600);
    const compiled = script.createCachedData();
    for (let at = 0; at < compiled.length; ) at += writeSync(file, compiled, at);
    fsyncSync(file);
    closeSync(file);
    renameSync(making, join(folder, name));
    for (const other of readdirSync(folder)) if (other.startsWith(beginning) && other !== name) rmSync(join(folder, other));
  } catch {
    clear(making);
  }
}

function clear(file: string): void {
  try {
    rmSync(file, { force: true });
  } catch {
    // Where nothing can be written, nothing was left.
  }
}
