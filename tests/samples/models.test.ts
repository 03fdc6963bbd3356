/** The six sample models: nothing wrong with any, and between them they say everything that the language for models can say. */
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { ruleWords } from "../../grammar/memory-rules.ts";
import { parse } from "../../grammar/parse.ts";
import type { Element, ModelDecl } from "../../grammar/tree.ts";
import { operationNames } from "../../grammar/tree.ts";
import { ambiguities } from "../../shared/keypad/ambiguity.ts";
import { compileModel } from "../../shared/keypad/compile.ts";
import { doorOf } from "../../shared/keypad/door.ts";
import { encode, encodeEnter, encodeLeave } from "../../shared/keypad/encode.ts";
import type { Operation } from "../../shared/keypad/memory.ts";
import { replay } from "../../shared/keypad/replay.ts";
import { fieldNames } from "../../shared/keypad/template-fields.ts";
import { actsIn, modelDecl, modelOf, written } from "../support/keypad.ts";

const folder = fileURLToPath(new URL("../../samples/models", import.meta.url));
const files = readdirSync(folder).sort();
const text = (file: string) => readFileSync(`${folder}/${file}`, "utf8");
const decls: readonly ModelDecl[] = files.map(file => modelDecl(text(file)));

test("the six by name", () => {
  expect(files).toEqual(["avocet-2", "dunlin-3", "knot-4", "plover-1", "turnstone-1", "whimbrel-2"].map(name => `${name}.mullion`));
});

describe.each(files)("%s", file => {
  test("has nothing wrong with it, no entry that could be another, and comments for whoever copies it", () => {
    const { model, problems } = compileModel(modelDecl(text(file)), file);
    expect(problems).toEqual([]);
    expect(model && ambiguities(model)).toEqual([]);
    expect(`${model?.id}.mullion`).toBe(file);
    expect(parse(text(file)).tree.comments.filter(comment => comment.alone).length).toBeGreaterThanOrEqual(2);
  });
  test("takes a code, a release time and a new installer code as its own text says, and lets its door be opened", () => {
    const model = modelOf(text(file));
    let memory = model.factory;
    const relay = [...model.relays.keys()][0] ?? "";
    const asks = (name: "put code" | "put tag") =>
      model.operations.get(name)?.template.some(one => one.kind === "field" && one.name.text === "relay");
    const slot = model.slots.bands.length ? { slot: model.slots.bands[0]?.from ?? 0 } : {};
    const codeLength = memory.codeLength ?? (model.length === "follows installer code" ? memory.installer?.length : model.codeLengths[0]);
    const code = "4829173".slice(0, codeLength);
    const operations: Operation[] = [
      { operation: "put code", ...(asks("put code") ? { relay } : {}), ...slot, code },
      ...(model.slots.holds === "code with tag"
        ? [{ operation: "put tag", ...(asks("put tag") ? { relay } : {}), ...slot, tag: "8061261" } as const]
        : []),
      { operation: "set release", relay, release: 7 },
      { operation: "set installer", code: "975313579".slice(0, memory.installer?.length) },
    ];
    for (const operation of operations) {
      const installer = memory.installer ?? "";
      const keys = [...encodeEnter(model, installer), ...encode(model, operation, { installer })];
      const { steps, memory: after } = replay(model, memory, actsIn([...keys, ...encodeLeave(model)]));
      expect(
        steps.filter(step => !step.taken),
        written(keys),
      ).toEqual([]);
      expect(steps[1]?.operation).toEqual(operation);
      memory = after;
    }
    const door = doorOf(model, memory);
    expect(memory.installer).toBe("975313579".slice(0, memory.installer?.length));
    expect(memory.releases.get(relay)).toBe(7);
    expect([...door.opens].some(([keyed, relays]) => keyed.includes(code) && relays.includes(relay))).toBe(true);
    expect(door.asleep).toEqual([]);
    expect(door.enters(actsIn(encodeEnter(model, memory.installer ?? "")))).toBe(true);
  });
});

describe("between them the models say", () => {
  const facts = decls.flatMap(decl => decl.facts);
  const kinds = new Set(facts.map(fact => fact.kind));
  const elements: Element[] = facts.flatMap(fact => ("template" in fact ? fact.template : []));

  test("every kind of line", () => {
    const all =
      "keys relays slots codes length rewrite twins relength release-range settle lapse lockout refused cancel reset setting-def tags session listens acts draws contact-rating operation factory note";
    expect([...kinds].sort()).toEqual(all.split(" ").sort());
  });
  test("every operation", () => {
    const said = new Set(facts.flatMap(fact => (fact.kind === "operation" ? [fact.operation] : [])));
    expect(operationNames.filter(name => !said.has(name))).toEqual([]);
  });
  test("every field, widths of one and of two numbers, and values typed twice", () => {
    const fields = elements.flatMap(element => (element.kind === "field" ? [element] : []));
    expect(fieldNames.filter(name => !fields.some(field => field.name.text === name))).toEqual([]);
    expect([1, 2].filter(widths => !fields.some(field => field.width?.length === widths))).toEqual([]);
    const twice = facts.some(
      fact => fact.kind === "operation" && fact.template.filter(one => one.kind === "field" && one.name.text === "code").length === 2,
    );
    expect(twice).toBe(true);
  });
  test("actions of the hand, of which presenting a tag is one", () => {
    const hands = new Set(elements.flatMap(element => (element.kind === "hand" ? [element.text] : [])));
    expect([...hands].sort()).toEqual(["hold the exit button", "present tag", "wait 3s"]);
  });
  test("every rule that is one of a few", () => {
    const said = new Set(facts.flatMap(fact => ("rule" in fact && fact.rule ? [`${fact.kind} ${fact.rule}`] : [])));
    const all = Object.entries(ruleWords).flatMap(([kind, rules]) => rules.map(rule => `${kind} ${rule}`));
    expect(all.filter(rule => !said.has(rule))).toEqual([]);
  });
  test("every kind of memory", () => {
    const forms = facts.flatMap(fact => (fact.kind === "slots" ? [fact.form] : []));
    expect([...new Set(forms.map(form => form.addressing))].sort()).toEqual(["one per relay", "per relay", "shared", "unnumbered"]);
    expect([...new Set(forms.map(form => form.holds ?? "one"))].sort()).toEqual(["code or tag", "code with tag", "one"]);
    expect([...new Set(forms.flatMap(form => form.ranges.map(range => range.kept ?? "any")))].sort()).toEqual([
      "all-relay",
      "any",
      "codes",
      "tags",
    ]);
  });
  test("both ways to say lengths, an installer code of its own, sets of relays, a toggle, no lockout, both resets, a clear that wipes", () => {
    const codes = facts.flatMap(fact => (fact.kind === "codes" ? [fact] : []));
    expect([
      codes.some(fact => fact.lengths?.to),
      codes.some(fact => (fact.lengths?.either?.length ?? 0) > 1),
      codes.some(fact => fact.installer),
    ]).toEqual([true, true, true]);
    expect(facts.some(fact => fact.kind === "relays" && fact.relays.some(relay => relay.numbers.length > 1))).toBe(true);
    expect(facts.some(fact => fact.kind === "release-range" && fact.toggle)).toBe(true);
    expect(facts.some(fact => fact.kind === "lockout" && fact.none) && facts.some(fact => fact.kind === "lockout" && fact.tries)).toBe(
      true,
    );
    expect([...new Set(facts.flatMap(fact => (fact.kind === "reset" ? [fact.what] : [])))].sort()).toEqual([
      "everything",
      "installer code",
    ]);
    expect(facts.some(fact => fact.kind === "operation" && fact.wipes)).toBe(true);
  });
});
