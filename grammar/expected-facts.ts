/** What may follow in each declaration and fact, by the words already said of it. */
import type { IToken } from "chevrotain";
import type { Allowed } from "./allowed.ts";
import { keyword, keywords, number, quantities, Said, sign, text } from "./allowed.ts";
import { stillAllowed, supplyWords } from "./door-rules.ts";
import { doorBeginnings, doorFact, modelFact, supplyFact } from "./expected-model.ts";
import { modelFactWords } from "./memory-rules.ts";
import * as t from "./tokens.ts";
import type { Declaration } from "./tree.ts";

export const declarationsAllowed: readonly Allowed[] = keywords(t.declarationWords);
const holderFacts = keywords(["code", "tag", "until", "note"]);
const keypadFacts = keywords(["relay", "installer", "all-relay", "code", "setting", "note"]);

/** At the end of a declaration that has no open block: its first line, or a holder's facts. */
export function headAllowed(declaration: Declaration, tokens: readonly IToken[], isNewLine: boolean): readonly Allowed[] {
  const said = new Said(tokens);
  const next = [...(isNewLine || isWhole(declaration) ? declarationsAllowed : [])];
  if ("body" in declaration && declaration.body !== undefined) return declarationsAllowed;
  switch (declaration.kind) {
    case "use":
      return declaration.path === undefined ? [text("path"), ...next] : next;
    case "site":
      return declaration.label === undefined ? [text("site"), ...next] : [sign("{"), ...next];
    case "policy":
      return [sign("{"), ...next];
    case "holder": {
      if (declaration.name === undefined) return [{ kind: "new-name", of: "holder" }, ...next];
      if (declaration.label === undefined) return [text("label"), ...next];
      const fact = declaration.facts[declaration.facts.length - 1];
      if (fact === undefined) return [...holderFacts, ...next];
      return [...holderFact(new Said(tokens.filter(token => token.startOffset >= fact.start)), isNewLine), ...next];
    }
    case "keypad":
      if (declaration.name === undefined) return [{ kind: "new-name", of: "keypad" }, ...next];
      if (declaration.label === undefined) return [text("label"), ...next];
      if (!said.has(t.Colon)) return [sign(":"), ...next];
      return declaration.model === undefined ? [{ kind: "model" }, ...next] : [sign("{"), ...next];
    case "model":
      if (declaration.name === undefined) return [{ kind: "new-name", of: "model" }, ...next];
      return declaration.label === undefined ? [text("label"), ...next] : [sign("{"), ...next];
    case "fitted":
      if (declaration.keypad === undefined) return [{ kind: "keypad" }, ...next];
      if (declaration.unknown !== undefined) return declarationsAllowed;
      if (declaration.date === undefined) return [{ kind: "date" }, keyword("unknown"), ...next];
      return [...(declaration.partly === undefined ? [keyword("partly")] : []), sign("{"), ...next];
    case "door":
      return declaration.label === undefined ? [text("door"), ...next] : [sign("{"), ...next];
    case "supply":
      if (declaration.name === undefined) return [{ kind: "new-name", of: "supply" }, ...next];
      if (declaration.label === undefined) return [text("label"), ...next];
      return [...quantities(said, ["V", "A", "mA"]), ...keywords(current(said)), sign("{"), ...next];
  }
}

/** Behind a supply's volts. */
function current(said: Said): readonly string[] {
  return said.last === "V" ? stillAllowed(supplyWords.supply, said.words) : [];
}

/** It can end here, so that another declaration may follow on the same line. */
function isWhole(declaration: Declaration): boolean {
  if (declaration.kind === "use") return declaration.path !== undefined;
  return (declaration.kind === "site" || declaration.kind === "holder") && declaration.label !== undefined;
}

function holderFact(said: Said, isNewLine: boolean): readonly Allowed[] {
  switch (said.first) {
    case "code":
      if (said.has(t.Digits)) return untilFact(said, holderFacts);
      return [
        ...(said.count === 1 ? [{ kind: "new-name", of: "credential" } as const] : []),
        { kind: "code" },
        ...(isNewLine ? holderFacts : []),
      ];
    case "tag":
      if (said.endsWith(t.Text)) return untilFact(said, said.includes("lost") ? holderFacts : [keyword("lost"), ...holderFacts]);
      if (said.count > 1 && /^\d/.test(said.last)) return untilFact(said, [text("mark"), keyword("lost"), ...holderFacts]);
      if (said.includes("lost")) return untilFact(said, holderFacts);
      return [
        ...(said.count === 1 ? [{ kind: "new-name", of: "credential" } as const] : []),
        { kind: "tag" },
        text("mark"),
        ...(isNewLine ? holderFacts : []),
      ];
    case "until":
      return said.has(t.DateWord) ? holderFacts : [{ kind: "date" }];
    default:
      return said.count > 1 ? holderFacts : [text("note")];
  }
}

function untilFact(said: Said, rest: readonly Allowed[]): readonly Allowed[] {
  if (!said.includes("until")) return rest;
  return said.has(t.DateWord) ? holderFacts : [{ kind: "date" }];
}

/** In an open block, after the words of its last fact. */
export function inBlock(block: object, tokens: readonly IToken[], isNewLine: boolean): readonly Allowed[] {
  const kind = (block as { readonly kind: string }).kind;
  const said = new Said(tokens);
  const { more, beginnings } = continued(kind, said);
  // What asks for more gets it; on a new line a word may begin something all the same, and an optional piece is not offered.
  if (more.length > 0 && lacks(said)) return isNewLine ? [...more, ...beginnings, sign("}")] : more;
  const isOptional = more.every(each => each.kind === "keyword" || each.kind === "sign" || each.kind === "unit");
  if (isNewLine) return [...beginnings, sign("}")];
  return isOptional ? [...more, ...beginnings, sign("}")] : more;
}

/** The last word asks for something behind it: a fact's first word, a slot, a sign. A holder alone is a whole entry. */
function lacks(said: Said): boolean {
  if (said.count === 1) return said.isKeyword || said.endsWith(t.Digits);
  return [t.Dot, t.Range, t.Plus, t.Equals, t.Comma, t.Bar].some(type => said.endsWith(type));
}

function continued(kind: string, said: Said): { more: readonly Allowed[]; beginnings: readonly Allowed[] } {
  switch (kind) {
    case "site":
      return { more: said.count === 1 ? [text("note")] : [], beginnings: keywords(["address", "contact", "note"]) };
    case "policy":
      return { more: policyRule(said), beginnings: keywords(["weak codes", "near codes", "guess odds"]) };
    case "keypad":
      return { more: said.count === 0 ? [] : keypadFact(said, false), beginnings: keypadFacts };
    case "fitted":
    case "factory":
      return {
        more: said.count === 0 ? [] : keypadFact(said, true),
        beginnings: kind === "fitted" ? [keyword("model"), ...keypadFacts] : keypadFacts,
      };
    case "relay":
      return { more: entry(said), beginnings: [{ kind: "slot" }, { kind: "holder" }] };
    case "fitted-relay":
      return { more: fittedEntry(said), beginnings: [{ kind: "slot" }, ...keywords(["code", "tag", "unknown"])] };
    case "model":
      return { more: said.count === 0 ? [] : modelFact(said), beginnings: keywords(modelFactWords) };
    case "door":
      return { more: said.count === 0 ? [] : doorFact(said), beginnings: keywords([...doorBeginnings, "note"]) };
    case "supply":
      return { more: said.count === 0 ? [] : supplyFact(said), beginnings: keywords(["battery", "feeds", "note"]) };
    default:
      return { more: [], beginnings: [] };
  }
}

function policyRule(said: Said): readonly Allowed[] {
  const verdicts = keywords(["warn", "refuse", "allow"]);
  const second = said.first === "guess" ? "odds" : "codes";
  if (said.count === 1) return [keyword(second)];
  if (said.count === 0 || verdicts.some(({ kind, ...rest }) => kind === "keyword" && "word" in rest && rest.word === said.last)) return [];
  if (said.first === "near" && !said.has(t.Digits)) return [number("digits"), ...verdicts];
  if (said.first === "near" && said.endsWith(t.Digits)) return [keyword("digits")];
  if (said.first === "guess" && said.count === 2) return [number("odds"), ...verdicts];
  if (said.first === "guess" && said.count === 3) return [keyword("in")];
  if (said.first === "guess" && said.last === "in") return [number("odds")];
  return verdicts;
}

function keypadFact(said: Said, isStored: boolean): readonly Allowed[] {
  switch (said.first) {
    case "installer":
      if (said.count === 1) return [keyword("code")];
      if (said.count === 2) return isStored ? [{ kind: "code" }] : [{ kind: "holder" }, { kind: "code" }];
      return held(said);
    case "all-relay":
      if (!said.includes("code")) return [keyword("code"), ...(said.count === 1 ? [number("all-relay")] : [])];
      if (said.last === "code") return isStored ? [{ kind: "code" }, keyword("unknown")] : [{ kind: "holder" }];
      return held(said);
    case "code":
      return said.count === 1 ? [keyword("length")] : said.last === "length" ? [number("length")] : [];
    case "setting":
      return said.count === 1 ? [text("setting")] : said.count === 2 ? [number("value")] : [];
    case "model":
      return said.count === 1 ? [{ kind: "model" }] : [];
    case "relay":
      return said.has(t.Close) ? [] : relay(said, isStored);
    default:
      return said.count === 1 ? [text("note")] : [];
  }
}

function relay(said: Said, isStored: boolean): readonly Allowed[] {
  if (said.count === 1 || said.endsWith(t.Plus)) return [{ kind: "relay" }];
  if (said.last === "release") return [{ kind: "time" }, keyword("toggle")];
  if (said.last === "no") return [keyword("codes")];
  if (said.last === "spare" || said.last === "codes") return [];
  const after = said.includes("release") ? [sign("{")] : [keyword("release"), sign("{")];
  if (said.endsWith(t.Text) || said.includes("release")) return isStored ? after : [...after, ...plain(said)];
  return [sign("+"), text("door"), ...after, ...(isStored ? [] : plain(said))];
}

function plain(said: Said): Allowed[] {
  return said.includes("release") ? [] : keywords(["spare", "no codes"]);
}

/** After a holder: its credential. */
function held(said: Said): readonly Allowed[] {
  if (said.endsWith(t.Dot)) return [{ kind: "credential", holder: said.words[said.count - 2] ?? "" }];
  return said.has(t.Dot) || said.endsWith(t.Digits) ? [] : [sign(".")];
}

function entry(said: Said): readonly Allowed[] {
  if (said.count === 0) return [];
  if (said.count === 1 && said.endsWith(t.Digits)) return [{ kind: "holder" }];
  if (said.endsWith(t.Dot)) return [{ kind: "credential", holder: said.words[said.count - 2] ?? "" }];
  const pair = Math.max(said.words.lastIndexOf("or"), said.words.lastIndexOf("with"));
  if (pair > 0 && pair === said.count - 1) return [{ kind: "holder" }];
  const dot = said.words.lastIndexOf(".") > pair ? [] : [sign(".")];
  return pair > 0 ? dot : [...dot, ...keywords(["or", "with"])];
}

function fittedEntry(said: Said): readonly Allowed[] {
  if (said.count === 0) return [];
  if (said.count === 1 && said.endsWith(t.Digits)) return keywords(["code", "tag", "unknown"]);
  if (said.last === "code") return [{ kind: "code" }];
  if (said.last === "tag") return [{ kind: "tag" }, text("mark")];
  if (said.last === "or" || said.last === "with") return keywords([said.includes("code") || said.first === "code" ? "tag" : "code"]);
  if (said.last === "unknown" || said.includes("or") || said.includes("with")) return [];
  return [...keywords(["or", "with"]), ...(said.includes("tag") && !said.endsWith(t.Text) ? [text("mark")] : [])];
}
