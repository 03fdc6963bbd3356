/** Colours text with the grammars of `syntaxes/`, by the same library that the editor uses. */
import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import oniguruma from "vscode-oniguruma";
import type { IGrammar } from "vscode-textmate";
import textmate from "vscode-textmate";

const require = createRequire(import.meta.url);
const ours = new Map([
  ["source.mullion", "mullion"],
  ["markdown.mullion.codeblock", "markdown"],
  ["template.mullion.injection", "template"],
]);

/** As much of the two outer languages as the injected grammars need around them. */
const outer = new Map([
  ["text.html.markdown", { scopeName: "text.html.markdown", patterns: [{ name: "paragraph", match: "^[A-Z].*" }] }],
  [
    "source.ts",
    {
      scopeName: "source.ts",
      patterns: [
        { name: "comment", match: "//.*" },
        { name: "keyword", match: "\\bconst\\b" },
        { name: "string.template", begin: "`", end: "`" },
      ],
      repository: {
        "template-substitution-element": { name: "meta.template.expression", begin: "\\$\\{", end: "\\}" },
      },
    },
  ],
]);

export function grammarFile(name: string): URL {
  return new URL(`../../../syntaxes/${name}.tmLanguage.json`, import.meta.url);
}

const wasm = readFile(require.resolve("vscode-oniguruma/release/onig.wasm")).then(bytes => oniguruma.loadWASM(bytes.buffer));

const registry = new textmate.Registry({
  onigLib: wasm.then(() => ({
    createOnigScanner: sources => new oniguruma.OnigScanner(sources),
    createOnigString: text => new oniguruma.OnigString(text),
  })),
  async loadGrammar(scope) {
    const known = ours.get(scope);
    if (known) return textmate.parseRawGrammar(await readFile(grammarFile(known), "utf8"), `${known}.json`);
    const outside = outer.get(scope);
    return outside ? textmate.parseRawGrammar(JSON.stringify(outside), "outside.json") : null;
  },
  getInjections: scope =>
    scope === "text.html.markdown" ? ["markdown.mullion.codeblock"] : scope === "source.ts" ? ["template.mullion.injection"] : [],
});

/** One piece of text and its scopes, outermost first, without those that end in the language's name twice over. */
export interface Coloured {
  readonly text: string;
  readonly scopes: readonly string[];
}

/** Every piece of every line that is more than blanks. */
export async function colour(text: string, scope = "source.mullion"): Promise<Coloured[]> {
  const grammar = (await registry.loadGrammar(scope)) as IGrammar;
  let stack = textmate.INITIAL;
  const pieces: Coloured[] = [];
  for (const line of text.split("\n")) {
    const read = grammar.tokenizeLine(line, stack);
    stack = read.ruleStack;
    for (const token of read.tokens) {
      const piece = line.slice(token.startIndex, token.endIndex);
      if (piece.trim() !== "") pieces.push({ text: piece.trim(), scopes: token.scopes });
    }
  }
  return pieces;
}

/** The pieces whose innermost scope begins with `scope`, in order. */
export async function pieces(text: string, scope: string, language?: string): Promise<string[]> {
  return (await colour(text, language)).filter(piece => piece.scopes.at(-1)?.startsWith(scope)).map(piece => piece.text);
}
