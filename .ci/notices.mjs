// The licences of what is bundled into the extension and the command line, as their authors ask.
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { root } from "./node.mjs";

/**
 * @param {string[]} inputs the files that went into the bundles, relative to the repository
 * @param {string} file where the notices are written, relative to the repository
 */
export function writeNotices(inputs, file) {
  const folders = new Set(inputs.map(input => /^.*node_modules\/(?:@[^/]+\/)?[^/]+/.exec(input)?.[0]).filter(Boolean));
  const notices = [...folders].sort().map(folder => {
    const { name, version, license, author } = JSON.parse(readFileSync(join(root, folder, "package.json"), "utf8"));
    const licence = readdirSync(join(root, folder)).find(entry => /^licen[cs]e/i.test(entry));
    const text = licence ? readFileSync(join(root, folder, licence), "utf8").trim() : standardText(name, license, author);
    return `${name} ${version} (${license})\n\n${text}\n`;
  });
  writeFileSync(join(root, file), notices.join(`\n${"-".repeat(72)}\n\n`));
}

/** Some packages name their licence and leave its text out. The text of MIT: https://spdx.org/licenses/MIT.html */
function standardText(name, license, author) {
  if (license !== "MIT" || !author)
    throw new Error(`the licence of ${name} (${license}) has to be looked up: the package has no text of it`);
  const holder = typeof author === "string" ? author : `${author.name} ${author.email ? `<${author.email}>` : ""}`.trim();
  return `MIT License

Copyright (c) ${holder}

Permission is hereby granted, free of charge, to any person obtaining a copy of this software and associated documentation files (the
"Software"), to deal in the Software without restriction, including without limitation the rights to use, copy, modify, merge, publish,
distribute, sublicense, and/or sell copies of the Software, and to permit persons to whom the Software is furnished to do so, subject to
the following conditions:

The above copyright notice and this permission notice shall be included in all copies or substantial portions of the Software.

THE SOFTWARE IS PROVIDED "AS IS", WITHOUT WARRANTY OF ANY KIND, EXPRESS OR IMPLIED, INCLUDING BUT NOT LIMITED TO THE WARRANTIES OF
MERCHANTABILITY, FITNESS FOR A PARTICULAR PURPOSE AND NONINFRINGEMENT. IN NO EVENT SHALL THE AUTHORS OR COPYRIGHT HOLDERS BE LIABLE FOR
ANY CLAIM, DAMAGES OR OTHER LIABILITY, WHETHER IN AN ACTION OF CONTRACT, TORT OR OTHERWISE, ARISING FROM, OUT OF OR IN CONNECTION WITH
THE SOFTWARE OR THE USE OR OTHER DEALINGS IN THE SOFTWARE.`;
}
