/**
 * Starts the command line. What was compiled of it is kept in the user's own cache folder, so that the next start is quicker.
 *
 * Node's own cache for compiled code is not enough: it keeps what is compiled when a file is loaded, before any of it has run, and
 * nearly all of a program is compiled after that, one function when it is first called.
 */
import { closeSync, fsyncSync, mkdirSync, openSync, readdirSync, readFileSync, renameSync, rmSync, statSync, writeSync } from "node:fs";
import { homedir } from "node:os";
import { join } from "node:path";
import { Script } from "node:vm";

/** Each command keeps its own, and what its first few runs compiled: the very first may have had nothing to do. */
const contributions = 4;
const command = /^[a-z]+$/.exec(process.argv[2] ?? "")?.[0] ?? "other";
const folder = cacheFolder();

// What stands in files of its own is loaded from here: a script may not.
const load = (file: string) => import(file);
body("cli")(require, load, () => body("cli-more"));

/** The function that a file of the command line is. */
function body(name: string) {
  const file = join(__dirname, `${name}.js`);
  // It has no character beyond ASCII, which spares decoding it.
  const source = readFileSync(file, "latin1");
  // Its first line is its own hash: V8 itself tells one source from another by nothing but their length.
  const hash = source.slice(2, source.indexOf("\n"));
  const beginning = `${command}-${name}-${process.version}-${process.arch}-`;
  const { count, cachedData } = keptAs(`${beginning}${hash}`);
  const script = new Script(`(${source}\n)`, { filename: file, ...(cachedData && { cachedData }) });
  const known = script.cachedDataRejected ? 0 : count;
  if (folder !== undefined && known < contributions)
    process.once("exit", status => {
      // What was only told that it cannot be done has shown nothing of the command.
      if (status !== 2) keep(folder, beginning, `${beginning}${hash}-${known + 1}`, script.createCachedData());
    });
  return script.runInThisContext();
}

/** Never the common folder for temporary files: whoever may write a cache may decide what is run. */
function cacheFolder(): string | undefined {
  try {
    const caches = process.platform === "win32" ? process.env.LOCALAPPDATA : process.env.XDG_CACHE_HOME || join(homedir(), ".cache");
    return caches && join(caches, "mullion", "compiled");
  } catch {
    return undefined;
  }
}

/** What is kept under a name, and how many runs have contributed to it. */
function keptAs(name: string): { readonly count: number; readonly cachedData?: Buffer } {
  for (let count = contributions; folder !== undefined && count > 0; count--) {
    const file = join(folder, `${name}-${count}`);
    try {
      // Another's is not trusted: `sudo` may leave a user's folder in force.
      if (process.geteuid && statSync(file).uid !== process.geteuid()) continue;
      return { count, cachedData: readFileSync(file) };
    } catch {
      // Not that many yet.
    }
  }
  return { count: 0 };
}

/** Written whole or not at all, for V8 trusts what it is given. Where it cannot be written, every start is like the first. */
function keep(folder: string, beginning: string, name: string, compiled: Buffer): void {
  const making = join(folder, `${name}.${process.pid}`);
  try {
    mkdirSync(folder, { recursive: true, mode: 0o700 });
    const file = openSync(making, "wx", 0o600);
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
