// The licences of what is bundled into the extension and the command line, as their authors ask.
import { existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { root } from "./node.mjs";

/**
 * @param {string[]} inputs the files that went into the bundles, relative to the repository
 * @param {string} file where the notices are written, relative to the repository
 */
export function writeNotices(inputs, file) {
  const folders = new Set(inputs.map(input => /^.*node_modules\/(?:@[^/]+\/)?[^/]+/.exec(input)?.[0]).filter(Boolean));
  const notices = [...folders].sort().map(folder => {
    const { name, version, license } = JSON.parse(readFileSync(join(root, folder, "package.json"), "utf8"));
    const licence = readdirSync(join(root, folder)).find(entry => /^licen[cs]e/i.test(entry));
    const text = licence && existsSync(join(root, folder, licence)) ? readFileSync(join(root, folder, licence), "utf8").trim() : "";
    return `${name} ${version} (${license})\n\n${text}\n`;
  });
  writeFileSync(join(root, file), notices.join(`\n${"-".repeat(72)}\n\n`));
}
