// Builds and packs the extension: out/mullion.vsix. `node .ci/package.mjs`
import { execFileSync } from "node:child_process";
import { statSync } from "node:fs";
import { join } from "node:path";
import { createVSIX } from "@vscode/vsce";
import { root } from "./node.mjs";

const repository = "https://example.org/mullion/mullion";

/** A package larger than this has something in it that does not belong there. */
const mostBytes = 700_000;

/**
 * @returns the path of the packed extension and its size
 * @throws when vsce warns of anything, or when the package is too large
 */
export async function packExtension() {
  const parts = ["server", "age", "extension", "browser-extension"];
  execFileSync(process.execPath, [join(root, ".ci/build.mjs"), ...parts], { stdio: "inherit" });
  const packagePath = join(root, "out/mullion.vsix");
  const warnings = await warned(() =>
    createVSIX({
      cwd: root,
      packagePath,
      dependencies: false,
      baseContentUrl: `${repository}/blob/main`,
      baseImagesUrl: `${repository}/raw/main`,
      useYarn: false,
    }),
  );
  if (warnings.length > 0) throw new Error(`packing the extension warned:\n${warnings.join("\n")}`);
  const bytes = statSync(packagePath).size;
  if (bytes >= mostBytes) throw new Error(`the packed extension has ${bytes} bytes; ${mostBytes} are the most`);
  return { path: packagePath, bytes };
}

/** vsce says its warnings on the console and nowhere else. */
async function warned(work) {
  const { log, warn, error } = console;
  const said = [];
  console.log = () => {};
  console.warn = (...words) => said.push(words.join(" "));
  console.error = console.warn;
  try {
    await work();
  } finally {
    Object.assign(console, { log, warn, error });
  }
  return said.filter(line => line.trim() !== "");
}

if (process.argv[1] === import.meta.filename) {
  const { path, bytes } = await packExtension();
  console.log(`${path}: ${bytes} bytes`);
}
