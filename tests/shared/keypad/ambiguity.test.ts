/** Entries that cannot be told apart: on examples, and against trying every string of keys on small random models. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Element } from "../../../grammar/tree.ts";
import type { Ambiguity } from "../../../shared/keypad/ambiguity.ts";
import { ambiguities } from "../../../shared/keypad/ambiguity.ts";
import type { Act } from "../../../shared/keypad/memory.ts";
import type { Model } from "../../../shared/keypad/model.ts";
import { isWhole, runs } from "../../support/chance.ts";
import { modelOf } from "../../support/keypad.ts";
import type { Draw } from "../../support/random-model.ts";
import { drawFrom } from "../../support/random-model.ts";

const told = (model: Model) =>
  ambiguities(model).map(
    ({ first, second, kind, witness, completeAfter, codeLengths }) =>
      `${first.label ?? first.operation} | ${second.label ?? second.operation}: ${kind}, ${keysOf(witness.slice(0, completeAfter))}${kind === "beginning" ? ` … ${keysOf(witness)}` : ""}${codeLengths.length ? ` (${codeLengths.join()} digits)` : ""}`,
  );

describe("what is told", () => {
  test("one entry is the beginning of another", () => {
    expect(told(small({ operations: ["put code 1 {slot} {code}", "set installer 1 1 {code} OK"] }))).toEqual([
      "put code | set installer: beginning, 1 1 1 1 … 1 1 1 1 OK",
    ]);
  });
  test("two entries with the same keys", () => {
    expect(told(small({ operations: ["put code 1 {slot} {code} OK", "set all-relay 1 0 {code} OK"] }))).toEqual([
      "put code | set all-relay: same keys, 1 0 1 1 OK",
    ]);
  });
  test("one entry under two readings of its fields: a number as it is, and a code of any length", () => {
    expect(told(small({ slots: "0..10", codes: "1..2", length: "length free", operations: ["put code 1 {slot} {code} OK"] }))).toEqual([
      "put code | put code: same keys, 1 1 1 1 OK",
    ]);
  });
  test("leaving, and getting out of an entry, are compared too", () => {
    expect(told(small({ operations: ["put code 1 {slot} {code} OK", "leave 1 OK", "cancel 1"] }))).toEqual([
      "cancel | leave: beginning, 1 … 1 OK",
      "cancel | put code: beginning, 1 … 1 1 1 1 OK",
    ]);
  });
  test("only with one of the lengths in force", () => {
    const lengths = { codes: "2 | 3", length: "length follows installer code" };
    expect(told(small({ ...lengths, operations: ["put code 1 {slot} {code} OK", "set all-relay 1 0 0 {code} OK"] }))).toEqual([]);
    expect(told(small({ ...lengths, operations: ["put code 1 {slot} {code} OK", "clear all-relay 1 0 0 1 OK"] }))).toEqual([
      "put code | clear all-relay: same keys, 1 0 0 1 OK (2 digits)",
    ]);
  });
  test("an installer code that is longer or shorter than the code length in force", () => {
    const lengths = { codes: "2..3", length: "length set by entry" };
    expect(
      told(small({ ...lengths, operations: ["set all-relay 0 {code} OK", "clear all 0 1 {installer} OK", "set length 1 {digits}"] })),
    ).toEqual(["set all-relay | clear all: same keys, 0 1 1 1 OK (3 digits)"]);
    const own = { codes: "1", installer: "2" };
    expect(told(small({ ...own, operations: ["set all-relay 1 0 {code}", "clear all 1 {installer}"] }))).toEqual([
      "set all-relay | clear all: same keys, 1 0 1",
    ]);
  });
  test("installer codes of two lengths that are never in force together are not compared", () => {
    const operations = ["clear all 0 1 {installer} OK", "set all-relay 0 0 0 0 0 {code}", "set length 1 {digits}"];
    expect(told(small({ codes: "1..3", length: "length set by entry", operations }))).toEqual([]);
  });
  test("a tag presented is another thing than a key", () => {
    expect(told(small({ operations: ["put code 1 {slot} {code}", "put tag 1 {slot} [present tag]"] }))).toEqual([]);
  });
  test("values typed twice are alike in the example where they can be", () => {
    expect(told(small({ operations: ["put code 1 {slot} {code} {code}", "set all-relay 1 0 {code} 1 1"] }))).toEqual([
      "put code | set all-relay: same keys, 1 0 1 1 1 1",
    ]);
    expect(told(small({ codes: "2", operations: ["put code 1 {slot} {code} {code}", "set all-relay 1 0 {code} 0 1"] }))).toEqual([
      "put code | set all-relay: same keys, 1 0 0 1 0 1",
    ]);
  });
  test("enter and the door are not compared", () => {
    expect(told(small({ operations: ["put code 0 {slot} {code} OK", "open code {code}", "open all-relay {code} {code}"] }))).toEqual([]);
  });
});

test("small random models: the same answer as trying every string of keys", { timeout: 120_000 }, () => {
  const count = { models: 0, ambiguous: 0, pairs: 0 };
  fc.assert(
    fc.property(fc.noShrink(fc.gen()), gen => {
      const draw = drawFrom(gen);
      const model = drawnSmall(draw);
      const found = ambiguities(model);
      count.models++;
      if (found.length) count.ambiguous++;
      count.pairs += found.length;
      expect(found.map(pairOf).sort()).toEqual(byTryingAll(model));
      for (const one of found) {
        // The witness really is accepted twice.
        const readings = forceOf(model, one.codeLengths[0]).flatMap(entries => acceptedBy(entries, one.witness.map(symbolOf)));
        expect(readings).toContain(nameOf(one.second));
        const beginning = forceOf(model, one.codeLengths[0]).flatMap(entries =>
          acceptedBy(entries, one.witness.slice(0, one.completeAfter).map(symbolOf)),
        );
        expect(beginning).toContain(nameOf(one.first));
        if (one.kind === "same keys") expect(readings.length).toBeGreaterThan(1);
      }
    }),
    { numRuns: runs(3_000) },
  );
  console.log(`${count.models} models, ${count.ambiguous} ambiguous, ${count.pairs} pairs`);
  if (isWhole) expect(count.ambiguous).toBeGreaterThan(300);
  if (isWhole) expect(count.models - count.ambiguous).toBeGreaterThan(300);
});

/* A keypad with the keys 0, 1 and OK, on which every string of keys can be tried. */

function small(parts: { slots?: string; codes?: string; installer?: string; length?: string; operations: readonly string[] }): Model {
  const has = (name: string) => parts.operations.some(operation => operation.startsWith(name));
  return modelOf(`model small "All strings can be tried" {
    keys 0..1 OK
    slots ${parts.slots ?? "0..1"} shared
    codes ${parts.codes ?? "2"} digits${parts.installer ? ` installer ${parts.installer} digits` : ""}
    ${parts.length ?? ""}
    enter OK {installer} OK
    ${parts.operations.join("\n")}
    ${has("put") ? "" : "put code 0 0 0 {slot} {code} OK OK OK"}
    ${has("open code") ? "" : "open code {code}"}
    ${has("open tag") ? "" : "open tag [present tag]"}
    ${has("open all-relay") ? "" : "open all-relay {code} OK"}
    ${has("set release") ? "release 1s..3s" : ""}
  }`);
}

function drawnSmall(draw: Draw): Model {
  const key = () => draw.one(["0", "1", "OK"]);
  const keys = () => Array.from({ length: draw.between(1, 2) }, key).join(" ");
  const end = () => (draw.oneIn(2) ? ` ${key()}` : "");
  const lengths = draw.one([
    { codes: "1" },
    { codes: "2" },
    { codes: "1..2", length: "length free" },
    { codes: "1 | 3", length: "length follows installer code" },
    { codes: "1 | 3", length: "length set by entry" },
    { codes: "1..2", installer: "2..3", length: "length set by entry" },
    { codes: "1", installer: "2..3" },
    { codes: "1..2", installer: "3", length: "length free" },
  ]);
  const all = [
    `put code ${keys()} ${draw.oneIn(2) ? "{slot} {code}" : "{code} {slot}"}${end()}`,
    `clear slot ${keys()} {slot}${end()}`,
    `set all-relay ${keys()} {code}${draw.oneIn(3) ? " {code}" : ""}${end()}`,
    `clear all-relay ${keys()}${end()}`,
    `set installer ${keys()} {code}${end()}`,
    `set release ${keys()} {seconds:1}${end()}`,
    `leave ${keys()}${end()}`,
    `cancel ${keys()}`,
    `clear all ${keys()} {installer}${end()}`,
    ...(lengths.length === "length set by entry" ? [`set length ${keys()} {digits}${end()}`] : []),
  ];
  const needed = (operation: string) => /^(?:put code|set length)/.test(operation);
  return small({ slots: draw.one(["0..1", "1..11", "00..10"]), ...lengths, operations: all.filter(one => needed(one) || draw.oneIn(3)) });
}

/** One way to type an entry: its keys, `d` for any digit. Written out from the template, not from the model's automaton. */
interface Typed {
  readonly name: string;
  readonly row: readonly string[];
}

function pairOf({ first, second, kind }: Ambiguity): string {
  return kind === "same keys" ? `= ${[nameOf(first), nameOf(second)].sort().join(" ")}` : `< ${nameOf(first)} ${nameOf(second)}`;
}

function nameOf(reading: { readonly operation: string }): string {
  return reading.operation.replace(" ", "-");
}

/**
 * All ways to type all entries, for each code length in force and each installer code that there may be then: its length counts
 * among those that are read, whatever the code length is.
 */
function forceOf(model: Model, only?: number): readonly (readonly Typed[])[] {
  const { codeLengths, installerLengths, installerOwn, length } = model;
  const inForce =
    length === "follows installer code"
      ? installerLengths.map(one => ({ codes: [one], installers: [one] }))
      : length === "set by entry"
        ? codeLengths.flatMap(code =>
            installerLengths.map(one => ({ codes: [code], installers: installerOwn ? installerLengths : [...new Set([code, one])] })),
          )
        : [{ codes: codeLengths, installers: installerLengths }];
  const asked = only === undefined ? inForce : inForce.filter(({ codes }) => codes.includes(only));
  return asked.map(({ codes: lengths, installers }) => {
    const templates: (readonly [string, readonly Element[]])[] = [...model.operations.values()]
      .filter(({ operation }) => operation !== "enter" && !operation.startsWith("open"))
      .map(({ operation, template }) => [operation, template]);
    templates.push(["cancel", model.cancel]);
    return templates.flatMap(([operation, template]) => {
      if (template.length === 0) return [];
      const most = Math.max(...model.slots.bands.map(band => band.to));
      const slots = model.slots.width ? [model.slots.width] : Array.from(`${most}`, (_, i) => i + 1);
      const codes = operation === "set installer" ? model.installerLengths : lengths;
      const found = new Set<string>();
      for (const code of codes) {
        for (const installer of installers) {
          for (const slot of slots) {
            const row = template.flatMap(element => {
              if (element.kind !== "field")
                return [...(element.kind === "keys" && /^\d+$/.test(element.text) ? element.text : [element.text])];
              const length = { code, installer, slot, seconds: 1, digits: 1 }[element.name.text] ?? 0;
              return Array.from({ length }, () => "d");
            });
            const fields = template.flatMap(element => (element.kind === "field" ? [element.name.text] : []));
            found.add(
              JSON.stringify([
                row,
                fields.includes("code") && code,
                fields.includes("installer") && installer,
                fields.includes("slot") && slot,
              ]),
            );
          }
        }
      }
      return [...found].map(one => ({ name: operation.replace(" ", "-"), row: JSON.parse(one)[0] as string[] }));
    });
  });
}

function acceptedBy(entries: readonly Typed[], keys: readonly string[]): readonly string[] {
  return entries.filter(({ row }) => row.length === keys.length && begins(row, keys)).map(({ name }) => name);
}

function begins(row: readonly string[], keys: readonly string[]): boolean {
  return keys.every((key, i) => row[i] === key || (row[i] === "d" && /^[01]$/.test(key)));
}

/** Types every string of keys, key by key, as long as some entry goes on with it. */
function byTryingAll(model: Model): readonly string[] {
  const pairs = new Set<string>();
  for (const entries of forceOf(model)) {
    const type = (keys: readonly string[], alive: readonly Typed[]) => {
      const complete = alive.filter(({ row }) => row.length === keys.length);
      for (const [i, one] of complete.entries()) {
        for (const other of complete.slice(i + 1)) pairs.add(`= ${[one.name, other.name].sort().join(" ")}`);
        for (const other of alive) if (other.row.length > keys.length) pairs.add(`< ${one.name} ${other.name}`);
      }
      for (const key of ["0", "1", "OK"]) {
        const next = [...keys, key];
        const going = alive.filter(({ row }) => row.length >= next.length && begins(row, next));
        if (going.length) type(next, going);
      }
    };
    type([], entries);
  }
  return [...pairs].sort();
}

function symbolOf(act: Act): string {
  return "press" in act ? act.press : `[${act.hand}]`;
}

function keysOf(acts: readonly Act[]): string {
  return acts.map(symbolOf).join(" ");
}
