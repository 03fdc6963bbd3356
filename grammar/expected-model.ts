/** What may follow in the facts of a model, a door and a supply. */
import type { Allowed, Said } from "./allowed.ts";
import { keyword, keywords, number, phrases, quantities, sign, text } from "./allowed.ts";
import { doorWords, stillAllowed, supplyWords } from "./door-rules.ts";
import { ruleWords } from "./memory-rules.ts";
import * as t from "./tokens.ts";
import { operationNames } from "./tree.ts";

const template: readonly Allowed[] = [{ kind: "key" }, { kind: "field" }, { kind: "hand" }];

export function modelFact(said: Said): readonly Allowed[] {
  const { first, words } = said;
  const rest = words.slice(1);
  if (first in ruleWords)
    return rest.length === 0
      ? phrases(ruleWords[first as keyof typeof ruleWords], [])
      : phrases(ruleWords[first as keyof typeof ruleWords], rest);
  switch (first) {
    case "keys":
      return said.endsWith(t.Digits) ? [{ kind: "key" }, sign("..")] : [{ kind: "key" }];
    case "relays":
      if (said.count === 1 || said.endsWith(t.Comma) || said.endsWith(t.Plus)) return [number("relay")];
      if (said.endsWith(t.Equals)) return [{ kind: "key" }];
      return [sign("="), sign("+"), sign(",")];
    case "slots":
      return slots(said);
    case "codes":
      if (said.count === 1 || said.last === "installer" || said.endsWith(t.Range) || said.endsWith(t.Bar)) return [number("digits")];
      if (said.endsWith(t.Digits)) return [keyword("digits"), sign(".."), sign("|")];
      return said.includes("installer") ? [] : [keyword("installer")];
    case "release":
      if (said.count === 1 || said.endsWith(t.Range)) return [{ kind: "time" }];
      if (said.endsWith(t.Comma)) return [keyword("toggle")];
      return said.last === "toggle" ? [sign("=")] : said.endsWith(t.Equals) ? [number("value")] : [sign(".."), sign(",")];
    case "settle":
    case "lapse":
      return said.count === 1 ? [{ kind: "time" }] : [];
    case "lockout":
      if (said.count === 1) return [number("tries"), keyword("none")];
      return said.count === 2 && said.endsWith(t.Digits) ? [keyword("tries")] : said.last === "tries" ? [{ kind: "time" }] : [];
    case "refused":
      return said.count === 1 ? [keyword("shows")] : said.last === "shows" ? [text("shows")] : [];
    case "cancel":
      return template;
    case "reset":
      if (said.endsWith(t.Text)) return [];
      return rest.length === 2 ? [text("reset")] : phrases(["wipes everything", "installer code"], rest);
    case "setting":
      if (said.count === 1) return [text("setting")];
      if (said.count === 2 || said.endsWith(t.Range) || said.last === "factory") return [number("value")];
      if (said.count === 3) return [sign("..")];
      if (said.last === "shows") return [text("shows")];
      return said.includes("shows") ? [] : [...(said.includes("factory") ? [] : [keyword("factory")]), ...template, keyword("shows")];
    case "tags":
      return said.count === 1 ? [number("bits")] : said.endsWith(t.Digits) ? [keyword("bits")] : [];
    case "draws":
      return quantities(said, ["mA", "A"]);
    case "contact":
      return quantities(said, ["A", "V"]);
    case "factory":
      return said.count === 1 ? [sign("{")] : [];
    case "note":
      return said.count === 1 ? [text("note")] : [];
    default:
      return operation(said);
  }
}

function slots(said: Said): readonly Allowed[] {
  const addressing = ["per relay", "shared", "unnumbered", "one per relay"];
  const holds = ["holds code or tag", "holds code with tag"];
  const rest = said.afterLastNumber();
  if (said.count === 1) return [number("slots"), keyword("one per relay")];
  if (said.endsWith(t.Range) || said.endsWith(t.Comma)) return [number("slots")];
  const from = rest.lastIndexOf("holds");
  if (from >= 0) return phrases(holds, rest.slice(from));
  const how = rest.filter(word => !["codes", "tags", "all-relay", ","].includes(word));
  if (addressing.includes(how.join(" "))) return [...keywords(holds), sign(",")];
  if (how.length > 0) return phrases(addressing, how);
  const kept = rest.length === 0 ? [sign(".."), ...keywords(["codes", "tags", "all-relay"])] : [];
  return [...kept, sign(","), ...keywords(addressing.slice(0, 3))];
}

function operation(said: Said): readonly Allowed[] {
  const seconds = operationNames.filter(name => name.startsWith(`${said.first} `)).map(name => name.slice(said.first.length + 1));
  if (seconds.length > 0 && said.count === 1) return keywords(seconds);
  if (said.last === "shows") return [text("shows")];
  if (said.last === "wipes") return [keyword("everything")];
  const wipes = said.words.slice(0, 2).join(" ") === "clear all" && !said.includes("wipes") ? [keyword("wipes everything")] : [];
  return said.includes("shows") ? wipes : [...(said.includes("wipes") ? [] : template), keyword("shows"), ...wipes];
}

export const doorBeginnings = ["lock", "contact", "cable", "exit", "route", "release on alarm", "near people"];
const doorUnits: Readonly<Record<string, readonly string[]>> = { lock: ["V", "mA", "A", "%"], cable: ["m", "mm2", "AWG", "C"] };

export function doorFact(said: Said): readonly Allowed[] {
  if (said.first === "note") return said.count === 1 ? [text("note")] : [];
  const words: readonly string[] = doorWords[said.first as keyof typeof doorWords] ?? [];
  const open = words.find(phrase => phrase.includes(" ") && phrase.split(" ")[0] === said.last);
  if (open !== undefined) return [keyword(open.slice(said.last.length + 1))];
  const units = doorUnits[said.first];
  if (units === undefined) return said.count === 1 ? keywords(words) : phrases(words, said.words.slice(1));
  if (said.endsWith(t.Digits) || said.endsWith(t.Decimal)) return [{ kind: "unit" }];
  return [...keywords(stillAllowed(words, said.words.slice(1))), { kind: "quantity", units }];
}

export function supplyFact(said: Said): readonly Allowed[] {
  if (said.first === "note") return said.count === 1 ? [text("note")] : [];
  if (said.first === "feeds") {
    if (said.last === "keypad") return [{ kind: "keypad" }];
    return said.count === 1 || said.endsWith(t.Comma) ? [text("door"), keyword("keypad")] : [sign(",")];
  }
  if (said.last === "down") return [keyword("to")];
  return [...quantities(said, ["V", "Ah", "h"]), ...keywords(stillAllowed(supplyWords.battery, said.words.slice(1)))];
}
