// The licences of what is bundled into the extension and the command line, as their authors ask: out/notices.txt.
import { existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { root } from "./node.mjs";

/** @param {string[]} inputs the files that went into the bundles, relative to the repository */
export function writeNotices(inputs) {
  const folders = new Set(inputs.map(input => /^.*node_modules\/(?:@[^/]+\/)?[^/]+/.exec(input)?.[0]).filter(Boolean));
  const notices = [...folders].sort().map(folder => {
    const { name, version, license } = JSON.parse(readFileSync(join(root, folder, "package.json"), "utf8"));
    const file = readdirSync(join(root, folder)).find(entry => /^licen[cs]e/i.test(entry));
    const text = file && existsSync(join(root, folder, file)) ? readFileSync(join(root, folder, file), "utf8").trim() : "";
    return `${name} ${version} (${license})\n\n${text}\n`;
  });
  writeFileSync(join(root, "out/notices.txt"), notices.join(`\n${"-".repeat(72)}\n\n`));
}
