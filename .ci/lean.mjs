// What bundled libraries carry and the programs never use is left out of them: it costs time at every start, and most of their size.
import { readFileSync } from "node:fs";

/** Chevrotain works out how to decide, and checks the grammar, when a parser is made. Both are done by the build and by tests. */
const workingOut = [
  "parse/grammar/checks.js",
  "parse/grammar/follow.js",
  "parse/grammar/gast/gast_resolver_public.js",
  "parse/grammar/interpreter.js",
  "parse/grammar/llk_lookahead.js",
  "parse/grammar/lookahead.js",
];

/** What stands in place of a file, by the end of its path. */
const instead = {
  ...Object.fromEntries(workingOut.map(file => [`chevrotain/lib/src/${file}`, refusals])),
  "grammar/next-token.ts": () => "export class NextToken {}",
  // The lexer is told the first characters of each pattern; otherwise it reads the patterns themselves.
  "chevrotain/lib/src/scan/reg_exp.js": refusals,
  "chevrotain/lib/src/scan/reg_exp_parser.js": () =>
    'export function clearRegExpParserCache() {} export function getRegExpAst() { throw new Error("getRegExpAst was left out by the build"); }',
  "@chevrotain/regexp-to-ast/lib/src/api.js": () => "export class BaseRegExpVisitor {} export class RegExpParser {}",
  // The grammar's rules recover by themselves, and make their own trees.
  "chevrotain/lib/src/parse/parser/traits/gast_recorder.js": () =>
    "export class GastRecorder { initGastRecorder() { this.RECORDING_PHASE = false; } }",
  "chevrotain/lib/src/parse/parser/traits/recoverable.js": () => `export const IN_RULE_RECOVERY_EXCEPTION = "";
    export class Recoverable {
      initRecoverable() { this.firstAfterRepMap = []; this.recoveryEnabled = false; }
      attemptInRepetitionRecovery() {}
    }`,
  "chevrotain/lib/src/parse/parser/traits/tree_builder.js": () => `export class TreeBuilder {
      initTreeBuilder() { this.outputCst = false; }
      ${["InvocationStateUpdate", "FinallyStateUpdate", "PostTerminal", "PostNonTerminal", "PostRule"].map(name => `cst${name}() {}`).join("\n")}
    }`,
  // It is told whether to colour, and must not ask: the question alone has Node set up every standard stream.
  "picocolors/picocolors.js": text => `var process = {};\n${text}`,
};

/** Says which of a module's exports was called after all. */
function refusals(text) {
  const names = [...text.matchAll(/^export (?:var|let|const|class|function) (\w+)/gm)].map(([, name]) => name);
  return names.map(name => `export function ${name}() { throw new Error("${name} was left out by the build"); }`).join("\n");
}

const ends = new RegExp(
  `(?:${Object.keys(instead)
    .map(end => end.replace(/[./]/g, part => (part === "/" ? "[\\\\/]" : "\\.")))
    .join("|")})$`,
);

export const lean = {
  name: "lean",
  setup: ({ onLoad }) =>
    onLoad({ filter: ends }, ({ path }) => {
      const [, replace] = Object.entries(instead).find(([end]) => path.replaceAll("\\", "/").endsWith(end));
      return { contents: replace(readFileSync(path, "utf8")), loader: path.endsWith(".ts") ? "ts" : "js" };
    }),
};
