/** Keypad models, memories' operations and key strings drawn at random, as Mullion text: nothing here knows how a model is compiled. */
import fc from "fast-check";
import { parse } from "../../grammar/parse.ts";
import type { ModelDecl } from "../../grammar/tree.ts";
import { ambiguities } from "../../shared/keypad/ambiguity.ts";
import { compileModel } from "../../shared/keypad/compile.ts";
import { codeLengthsInForce } from "../../shared/keypad/lengths.ts";
import type { Memory, Operation, TagId } from "../../shared/keypad/memory.ts";
import type { Model } from "../../shared/keypad/model.ts";

/** Draws that come from fast-check, so that a failure can be repeated from its seed. */
export function drawFrom(gen: fc.GeneratorValue): Draw {
  return new Draw(max => gen(fc.nat, { max }));
}

export class Draw {
  /** From 0 up to a number, both included. */
  readonly upTo: (max: number) => number;
  constructor(upTo: (max: number) => number) {
    this.upTo = upTo;
  }
  between(min: number, max: number): number {
    return min + this.upTo(max - min);
  }
  one<T>(list: readonly T[]): T {
    return list[this.upTo(list.length - 1)] as T;
  }
  /** True about once in `n` times. */
  oneIn(n: number): boolean {
    return this.upTo(n - 1) === 0;
  }
  digits(length: number): string {
    let digits = "";
    for (let i = 0; i < length; i++) digits += this.upTo(9);
    return digits;
  }
}

/** A model's text: valid in its grammar, mostly without a problem, sometimes ambiguous. */
export function modelText(draw: Draw): string {
  const relays = draw.between(1, 3);
  const relayKeys = draw.one([
    ["1", "2", "3", "12"],
    ["4", "5", "6", "7"],
    ["A", "B", "9", "0"],
    ["11", "12", "13", "14"],
  ]);
  const sets = relays > 1 && draw.oneIn(2);
  const addressing = draw.one(["per relay", "shared", "unnumbered", "one per relay"]);
  const numbered = addressing === "per relay" || addressing === "shared";
  const numberedAllRelay = numbered && draw.oneIn(4);
  const ranges = numberedAllRelay
    ? draw.one(["01..08 codes, 10..19, 20..29 tags, 90..92 all-relay", "1..8, 100..102 all-relay"])
    : draw.one(["00..09", "1..12", "001..004", "01..03 codes, 10..12 tags"]);
  const holds = addressing === "unnumbered" ? "" : draw.one(["", "", " holds code or tag", " holds code with tag"]);
  const codes = draw.one(["4", "3 | 5", "3..5"]);
  const oneLength = codes === "4";
  const length = oneLength ? undefined : draw.one(["follows installer code", "set by entry", "free"]);
  const installer = length !== "follows installer code" && draw.oneIn(3) ? " installer 5..6 digits" : "";
  const tagField = draw.one(["[present tag]", "[present tag]", "{tag}", "{tag:8}", "{tag:3+5}"]);
  const relay = relays > 1 || draw.oneIn(4) ? draw.one(["{relay}", "{relay}", sets ? "{relay}" : "{relay-number}"]) : "";
  const slot = numbered ? "{slot}" : "";
  const end = draw.one(["OK", "OK", "OK", "#", ""]);
  const between = draw.one(["", "", "OK", "*"]);
  const twice = draw.oneIn(4);

  const used = new Set<string>();
  const opcode = (): string => {
    for (;;) {
      const code = draw.oneIn(4) ? draw.one(["C", "D", "7", "8", "*"]) : `${draw.upTo(9)}${draw.upTo(9)}`;
      if (used.has(code) && !draw.oneIn(20)) continue;
      used.add(code);
      return code;
    }
  };
  const entry = (...fields: readonly string[]): string => {
    const present = fields.filter(field => field !== "");
    const shuffled = draw.oneIn(3) ? [...present].reverse() : present;
    return [opcode(), ...shuffled.flatMap(field => [field, between]).slice(0, -1), end].filter(part => part !== "").join(" ");
  };
  const code = twice ? "{code} {code}" : "{code}";
  const lines = [
    "keys 0..9 A B C D OK * #",
    `relays ${[...Array(relays).keys()].map(i => `${i + 1} = ${relayKeys[i]}`).join(", ")}${sets ? `, 1+2 = ${relayKeys[3]}` : ""}`,
    `slots ${addressing === "unnumbered" ? "3 unnumbered" : addressing === "one per relay" ? "one per relay" : `${ranges} ${addressing}`}${holds}`,
    `codes ${codes} digits${installer}`,
    ...(length ? [`length ${length}`] : []),
    `rewrite ${draw.one(["replaces", "refused"])}`,
    `twins ${draw.one(["refused", "first fires", "all fire"])}`,
    `relength ${draw.one(["clears", "keeps what was stored"])}`,
    `release 1s..30s${draw.oneIn(2) ? ", toggle = 00" : ""}`,
    ...(draw.oneIn(3) ? ["session one entry"] : []),
    ...(draw.oneIn(2) ? [`cancel ${draw.one(["C", "# #", "OK OK", "B *"])}`] : []),
    ...(draw.oneIn(2) ? [`listens ${draw.one(["to the last keys", "from the first key"])}`] : []),
    ...(draw.oneIn(2) ? [`acts ${draw.one(["after a pause", "at once"])}`] : []),
    `enter ${draw.one(["OK {installer} OK", "* * {installer} #", "A {installer} B", "[hold the exit button] {installer} OK"])}`,
    ...(draw.oneIn(5) ? [] : [`leave ${draw.one(["OK OK", "* *", "0 0 0", "#", "A B"])}`]),
    `put code ${entry(relay, slot, code)}`,
    `put tag ${entry(relay, slot, tagField)}`,
    ...(addressing === "unnumbered" || draw.oneIn(6) ? [] : [`clear slot ${entry(addressing === "shared" ? "" : relay, slot)}`]),
    ...(draw.oneIn(3) || addressing === "unnumbered" ? [`clear code ${entry(code)}`, `clear tag ${entry(tagField)}`] : []),
    `set installer ${entry(code)}`,
    `set all-relay ${entry(numberedAllRelay ? "{slot}" : "", code)}`,
    `clear all-relay ${entry(numberedAllRelay ? "{slot}" : "")}`,
    `set release ${entry(relay, draw.one(["{seconds:2}", "{seconds:2}", "{seconds}"]))}`,
    ...(length === "set by entry" ? [`set length ${entry(draw.one(["{digits}", "{digits:2}"]))}`] : []),
    `clear all ${entry("{installer}")}${draw.oneIn(2) ? " wipes everything" : ""}`,
    `setting "lamp" 0..3 factory 1 ${entry("{value:1}")}`,
    `setting "chime" 5..120 ${entry("{value}")}`,
    `open code {code}${draw.oneIn(3) ? " OK" : ""}`,
    `open tag [present tag]`,
    ...(holds === " holds code with tag" ? ["open both {code} [present tag]"] : []),
    `open all-relay ${draw.one(["{relay} D {code}", "{code} D {relay}", "{relay} {code}"])}`,
    `factory {\ninstaller code ${installer ? "97531" : oneLength ? "9753" : "97531"}\n${length === "set by entry" ? "code length 5\n" : ""}relay 1 release 5s\n}`,
  ];
  return `model drawn "Drawn at random" {\n${lines.join("\n")}\n}`;
}

/** A model that passes the model checks, or nothing where the draw did not make one. */
export function drawnModel(draw: Draw): { readonly model: Model; readonly text: string } | undefined {
  const text = modelText(draw);
  const { tree, problems: slips } = parse(text);
  if (slips.length) throw new Error(`the drawn text is not in the grammar: ${slips[0]?.message}\n${text}`);
  const { model, problems } = compileModel(tree.declarations[0] as ModelDecl, "/drawn.mullion");
  if (!model || problems.some(problem => problem.severity === "error") || ambiguities(model).length) return undefined;
  return { model, text };
}

/** An operation that the keypad has, with values out of a few, so that slots and codes meet. Numbers are sometimes out of range. */
export function drawnOperation(model: Model, memory: Pick<Memory, "installer" | "codeLength">, draw: Draw): Operation {
  const named = [...model.operations.keys()].filter(name => name !== "enter" && name !== "leave" && !name.startsWith("open "));
  const name = draw.one<string>(
    [...named, "put code", "put code", ...model.settings.keys()].filter(one => model.settings.has(one) || named.includes(one as never)),
  );
  const fields = new Set(
    (model.settings.get(name) ?? model.operations.get(name as never))?.template.map(one =>
      one.kind === "field" ? one.name.text : one.kind === "hand" ? one.text : "",
    ),
  );
  const relays = [...model.relays.keys()].filter(set => !fields.has("relay-number") || !set.includes("+"));
  const relay = fields.has("relay") || fields.has("relay-number") ? { relay: draw.one(relays) } : {};
  const slots = [0, 1, 2, 3, 4, 9, 10, 11, 20, 90, 91, 99].filter(one => `${one}`.length <= (model.slots.width ?? 3));
  const slot = fields.has("slot") ? { slot: draw.one(slots) } : {};
  const code = drawnCode(draw, draw.one(codeLengthsInForce(model, memory)));
  const tag = drawnTag(draw);
  switch (name) {
    case "put code":
      return { operation: name, ...relay, ...slot, code };
    case "put tag":
      return { operation: name, ...relay, ...slot, tag };
    case "clear slot":
      return { operation: name, ...relay, ...slot };
    case "clear code":
      return { operation: name, ...relay, code };
    case "clear tag":
      return { operation: name, ...relay, tag };
    case "set installer":
      return { operation: name, code: drawnCode(draw, draw.one(model.installerLengths)) };
    case "set all-relay":
      return { operation: name, ...slot, code };
    case "clear all-relay":
      return { operation: name, ...slot };
    case "set release":
      return {
        operation: name,
        relay: draw.one(fields.has("relay") || fields.has("relay-number") ? relays : ["1"]),
        release: model.release?.toggle && draw.oneIn(4) ? "toggle" : draw.between(1, 99),
      };
    case "set length":
      return { operation: name, digits: draw.between(1, 9) };
    case "clear all":
      return { operation: name };
    default:
      return { operation: "set setting", label: name, value: draw.upTo(model.settings.get(name)?.max === 3 ? 9 : 200) };
  }
}

/** One of few codes of a length, so that twins are common. */
function drawnCode(draw: Draw, length: number): string {
  return draw.oneIn(4) ? draw.digits(length) : "48291735".slice(0, length - 1) + draw.between(1, 3);
}

export function drawnTag(draw: Draw): TagId {
  return draw.one(["8061261", "8061262", "334", "16777215"]);
}
