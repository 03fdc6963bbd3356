// Puts a program into two files: what it begins with, and what is loaded when it is first asked for. What both use stands in the first.
import { basename, join } from "node:path";
import { Script } from "node:vm";
import { build } from "esbuild";
import { root } from "./node.mjs";

/**
 * @param how options for esbuild; `entryPoints` has one file
 * @param {string[]} soon what is loaded on demand and yet stands in the first file, relative to the repository
 * @returns the texts of both, each a function's: of the first, of Node's `require`, of what loads files beside the program, and of `more`, which
 * gives the second; and the files that went in
 */
export async function pack(how, soon) {
  const { outputFiles, metafile } = await build({
    ...how,
    format: "esm",
    splitting: true,
    bundle: true,
    metafile: true,
    write: false,
    outdir: join(root, "out/parts"),
    entryNames: "part-[hash]",
    chunkNames: "part-[hash]",
  });
  const outputs = new Map(Object.entries(metafile.outputs).map(([path, output]) => [basename(path), output]));
  const [first] = [...outputs].find(([, { entryPoint }]) => how.entryPoints.includes(join(root, entryPoint ?? ""))) ?? [];
  const begins = new Set();
  const reach = name => {
    if (begins.has(name)) return;
    begins.add(name);
    for (const { path, kind, external } of outputs.get(name).imports) {
      const other = basename(path);
      if (!external && (kind === "import-statement" || soon.includes(outputs.get(other).entryPoint))) reach(other);
    }
  };
  reach(first);
  const parts = { begin: [], more: [] };
  for (const { path, text } of outputFiles)
    parts[begins.has(basename(path)) ? "begin" : "more"].push(`"./${basename(path)}"(exports){${asFunction(text.trim())}}`);
  return {
    begin: `(require,load,more)=>{"use strict";${start}${"\n"}const parts={${parts.begin.join(",\n")}};part("./${first}")}`,
    more: `(take,soon)=>{"use strict";return{${parts.more.join(",\n")}}}`,
    inputs: Object.keys(metafile.inputs),
  };
}

/** A part is loaded when it is first asked for, by name; what is no part is Node's or stands in a file of its own. */
const start = `const made={};
const part=name=>{
  if(!(name in made)){
    if(!(name in parts))Object.assign(parts,more()(take,soon));
    parts[name](made[name]={});
  }
  return made[name];
};
const take=name=>name.startsWith("./part-")?part(name):require(name);
const soon=async name=>name.startsWith("./part-")?part(name):load(name);`;

/**
 * A module as esbuild writes it, its exports last, as the body of a function. No two parts need each other at once, so that what is
 * imported is there; what is left unconverted would not be a function's body, and the build says so.
 */
function asFunction(text) {
  const [exported = "", list = ""] = /export\s*\{([\w$\s,]*)\};?\s*$/.exec(text) ?? [];
  let imports = "";
  const body = text
    .slice(0, text.length - exported.length)
    .replace(/\bimport(?:\s*([\w$*{}\s,]+?)\s*from)?\s*("(?:node:[a-z_/]+|\.\/part-[A-Z0-9]+\.js)");?/g, (_, what, from) => {
      const names = what?.startsWith("{") ? what.replace(/ as /g, ":") : what?.replace(/^\*\s*as /, "");
      imports += names === undefined ? `take(${from});` : `const ${names}=take(${from});`;
      return "";
    })
    .replace(/\bimport\((?=")/g, "soon(");
  const pairs = list
    .split(",")
    .filter(Boolean)
    .map(pair => pair.trim().split(" as "));
  const exports = pairs.map(([own, said = own]) => `${said}:${own}`).join();
  new Script(`()=>{"use strict";${imports}${body}}`);
  return `${imports}${body};${exports && `Object.assign(exports,{${exports}})`}`;
}
