// A headless Chromium for the tests: $MULLION_CHROMIUM, the system's, or the one that the npm package @sparticuz/chromium carries.
import { execFileSync } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { cached } from "./cache.mjs";
import { root } from "./node.mjs";

const quiet = ["--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync", "--disable-quic"];

/**
 * What playwright-core's `chromium.launch` needs to start a browser that talks to nobody.
 * @param {{ shipped?: boolean }} how `shipped`: the package's, whatever else is installed
 * @returns {Promise<{ executablePath: string, args: string[], env: Record<string, string> }>}
 * @throws when there is no Chromium for this machine
 */
export async function chromiumOptions({ shipped = false } = {}) {
  // A sandbox of its own is refused to the superuser.
  const args = process.getuid?.() === 0 ? [...quiet, "--no-sandbox"] : quiet;
  const installed = [process.env.MULLION_CHROMIUM, "/usr/bin/chromium"].find(path => path && existsSync(path));
  if (installed && !shipped) return { executablePath: installed, args, env: { ...process.env } };

  if (process.platform !== "linux" || process.arch !== "x64")
    throw new Error("no Chromium found: set MULLION_CHROMIUM to one (the packaged build is for Linux x64 only)");
  const { version } = JSON.parse(readFileSync(join(root, "node_modules/@sparticuz/chromium/package.json"), "utf8"));
  const folder = await cached(`chromium-${version}`, unpackChromium);
  const env = { ...process.env };
  if (existsSync(join(folder, "al2023"))) env.LD_LIBRARY_PATH = [join(folder, "al2023/lib"), env.LD_LIBRARY_PATH].filter(Boolean).join(":");
  return { executablePath: join(folder, "chromium"), args: [...args, "--disable-gpu", "--no-zygote"], env };
}

/** The package unpacks itself into the system's temporary folder; for the time of that, `folder` is this folder. */
async function unpackChromium(folder) {
  const before = process.env.TMPDIR;
  process.env.TMPDIR = folder;
  try {
    const { default: chromium, inflate } = await import("@sparticuz/chromium");
    const program = await chromium.executablePath();
    // The shared libraries that a bare server installation lacks come with the package too.
    if (/not found/.test(execFileSync("ldd", [program], { encoding: "utf8" })))
      await inflate(join(root, "node_modules/@sparticuz/chromium/bin/al2023.tar.br"));
  } finally {
    if (before === undefined) delete process.env.TMPDIR;
    else process.env.TMPDIR = before;
  }
}
