/** The parts of a site put together: names to what they name, first come first kept, the rest reported as doubled. */
import type { Declaration, ModelDecl, PolicyDecl, SiteDecl, Span } from "../../grammar/tree.ts";
import type { FileId, Place, SourceFile } from "../finding.ts";
import { compileModel } from "../keypad/compile.ts";
import type { Model } from "../keypad/model.ts";
import { allowancesOf } from "./allowances.ts";
import { holderOf } from "./holders.ts";
import { fittedOf, keypadOf } from "./keypads.ts";
import type { Fitted, Holder, Keypad, Policy, Site } from "./site.ts";

/** Resolves files that were read, the first being the site's own. */
export function resolveSite(root: FileId, files: readonly SourceFile[], uses: Site["uses"]): Site {
  const doubled: Site["doubled"][number][] = [];
  const said = new Map<Declaration["kind"], Said<Declaration>[]>();
  for (const { file, tree } of files) {
    for (const node of tree.declarations) {
      const ofKind = said.get(node.kind);
      if (ofKind) ofKind.push({ file, node });
      else said.set(node.kind, [{ file, node }]);
    }
  }
  const of = <K extends Declaration["kind"]>(kind: K) =>
    (said.get(kind) ?? []) as readonly Said<Declaration>[] as readonly Said<never>[] as readonly Said<Extract<Declaration, { kind: K }>>[];
  const firstOf = <K extends "holder" | "model" | "keypad" | "fitted" | "door" | "supply">(kind: K) => firsts(kind, of(kind), doubled);
  const onlyOne = <N extends SiteDecl | PolicyDecl>([first, ...later]: readonly { readonly file: FileId; readonly node: N }[]) => {
    for (const { file, node } of later) {
      // Twice in one file is an error of the grammar already.
      if (first && first.file !== file)
        doubled.push({ what: node.kind, name: "", first: place(first.file, first.node.keyword), again: place(file, node.keyword) });
    }
    return first;
  };

  const siteDecl = onlyOne(of("site"))?.node;
  const policyDecl = onlyOne(of("policy"));

  const holders = new Map<string, Holder>();
  for (const { file, node } of firstOf("holder")) {
    const holder = holderOf(file, node, doubled);
    if (holder.id !== "") holders.set(holder.id, holder);
  }

  const models = new Map<string, Model>();
  const modelProblems: Site["modelProblems"][number][] = [];
  for (const { file, node } of firstOf("model")) {
    const { model, problems } = compiled(node, file);
    if (model && node.name) models.set(node.name.text, model);
    for (const problem of problems) modelProblems.push({ file, node, problem });
  }

  const keypadNodes = firstOf("keypad");
  const modelOfKeypad = new Map(keypadNodes.map(({ node }) => [node.name?.text ?? "", node.model?.text]));
  const fitted = new Map<string, Fitted>();
  for (const { file, node } of firstOf("fitted")) {
    const record = fittedOf(file, node, models, modelOfKeypad.get(node.keypad?.text ?? ""));
    fitted.set(record.keypadId, record);
  }

  const keypads = new Map<string, Keypad>();
  for (const { file, node } of keypadNodes) {
    const keypad = keypadOf(file, node, { holders, models, fitted });
    if (keypad.id !== "") keypads.set(keypad.id, keypad);
  }

  const fact = (kind: "address" | "contact") => siteDecl?.facts.find(one => one.kind === kind)?.text?.text;
  const label = siteDecl?.label?.text;
  const address = fact("address");
  const contact = fact("contact");
  return {
    root,
    ...(label === undefined ? {} : { label }),
    ...(address === undefined ? {} : { address }),
    ...(contact === undefined ? {} : { contact }),
    ...(siteDecl ? { node: siteDecl } : {}),
    files,
    shut: files.flatMap(({ sealed }) => (sealed && !sealed.open ? [sealed] : [])),
    uses,
    holders,
    models,
    modelNodes: of("model"),
    modelProblems,
    keypads,
    fitted: [...fitted.values()],
    policy: policyOf(policyDecl),
    doors: firstOf("door"),
    supplies: firstOf("supply"),
    allowances: files.flatMap(allowancesOf),
    doubled,
  };
}

interface Said<N> {
  readonly file: FileId;
  readonly node: N;
}

/** The first declaration of each name, and those whose name is still to be typed. */
function firsts<N extends Declaration>(
  what: "holder" | "model" | "keypad" | "fitted" | "door" | "supply",
  all: readonly { readonly file: FileId; readonly node: N }[],
  doubled: Site["doubled"][number][],
): readonly { readonly file: FileId; readonly node: N }[] {
  const seen = new Map<string, Said<Span>>();
  return all.filter(({ file, node }) => {
    const name = node.kind === "fitted" ? node.keypad : node.kind === "door" ? node.label : "name" in node ? node.name : undefined;
    if (!name) return true;
    const first = seen.get(name.text);
    if (first) doubled.push({ what, name: name.text, first: place(first.file, first.node), again: place(file, name) });
    else seen.set(name.text, { file, node: name });
    return first === undefined;
  });
}

function place(file: FileId, span: { readonly start: number; readonly end: number }): Place {
  return { file, start: span.start, end: span.end };
}

/** A model's declaration compiles the same each time, so an edit elsewhere does not compile it again. */
const compiledBefore = new WeakMap<ModelDecl, { file: FileId; result: ReturnType<typeof compileModel> }>();

function compiled(node: ModelDecl, file: FileId): ReturnType<typeof compileModel> {
  const before = compiledBefore.get(node);
  if (before?.file === file) return before.result;
  const result = compileModel(node, file);
  compiledBefore.set(node, { file, result });
  return result;
}

function policyOf(said: { readonly file: FileId; readonly node: PolicyDecl } | undefined): Policy {
  const rule = (kind: PolicyDecl["rules"][number]["kind"]) => said?.node.rules.find(one => one.kind === kind);
  const near = rule("near-codes");
  const oneIn = Number(rule("guess-odds")?.oneIn?.text ?? Number.NaN);
  return {
    weakCodes: rule("weak-codes")?.verdict ?? "warn",
    nearCodes: { verdict: near?.verdict ?? "warn", places: Number(near?.digits?.text ?? 2) },
    ...(oneIn >= 1 ? { guessOdds: { oneIn } } : {}),
    ...(said ? { node: said.node, file: said.file } : {}),
  };
}
