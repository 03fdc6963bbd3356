import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { apply } from "../../../shared/keypad/apply.ts";
import { doorOf } from "../../../shared/keypad/door.ts";
import { draftOf, freeze } from "../../../shared/keypad/draft.ts";
import type { Memory, Slot } from "../../../shared/keypad/memory.ts";
import { sameMemory } from "../../../shared/keypad/memory-equal.ts";
import type { Model } from "../../../shared/keypad/model.ts";
import { replay } from "../../../shared/keypad/replay.ts";
import { planKeypad } from "../../../shared/plan/plan-keypad.ts";
import { partlyKnown } from "../../../shared/plan/start.ts";
import { isWhole, runs } from "../../support/chance.ts";
import { drawnMemory, drawnModel, picks, traits } from "./drawn.ts";
import { entriesOf, memory, modelOf, written } from "./keypads.ts";
import { isSafe, pairs } from "./shortest.ts";

/** The record of a keypad of which some places are not known. */
function forget(model: Model, truth: Memory, which: readonly boolean[]): Memory {
  let at = 0;
  const hidden = () => which[at++ % which.length] ?? false;
  const hide = ({ key, fires, number, code, tag }: Slot): Slot => {
    const content = model.slots.addressing === "unnumbered" ? { ...(code ? { code } : {}), ...(tag ? { tag } : {}) } : {};
    return { key, ...(fires === undefined ? {} : { fires }), ...(number === undefined ? {} : { number }), ...content, unknown: true };
  };
  return {
    ...truth,
    slots: new Map([...truth.slots].map(([key, slot]) => [key, hidden() ? hide(slot) : slot])),
    allRelay: new Map(
      [...truth.allRelay].map(([key, { number, code }]) => [
        key,
        { ...(number === undefined ? {} : { number }), ...(hidden() ? { unknown: true } : { code: code ?? "" }) },
      ]),
    ),
  };
}

/** What may open while the plan is typed: what opened before, whichever unknown places were empty, and what is wanted. */
function mayOpen(model: Model, truth: Memory, record: Memory, wanted: Memory): Set<string> {
  const places = [
    ...[...record.slots.values()].filter(slot => slot.unknown).map(({ key }) => ({ slot: key })),
    ...[...record.allRelay].filter(([, stored]) => stored.unknown).map(([key]) => ({ allRelay: key })),
  ];
  const allowed = pairs(model, wanted);
  for (let mask = 0; mask < 1 << places.length; mask++) {
    const slots = new Map(truth.slots);
    const allRelay = new Map(truth.allRelay);
    places.forEach((place, at) => {
      if (!(mask & (1 << at))) return;
      if ("slot" in place) slots.delete(place.slot);
      else allRelay.delete(place.allRelay);
    });
    for (const pair of pairs(model, { ...truth, slots, allRelay })) allowed.add(pair);
  }
  return allowed;
}

describe("for every memory that the record allows", () => {
  test("the plan's keys arrive, and nothing opens meanwhile that did not and is not wanted", () => {
    let planned = 0;
    fc.assert(
      fc.property(traits, picks, picks, fc.array(fc.boolean(), { minLength: 6, maxLength: 6 }), (drawn, old, next, which) => {
        const model = drawnModel(drawn);
        const [truth, wanted] = [drawnMemory(model, old, false), drawnMemory(model, next, true)];
        const door = doorOf(model, wanted);
        fc.pre(
          !door.blocksEnter && !doorOf(model, truth).blocksEnter && door.asleep.every(one => one.why === "half" || one.why === "no way"),
        );
        const record = forget(model, truth, which);
        const plan = planKeypad(model, record, wanted, { from: "fitted", knows: "all" });
        if ("cannot" in plan) return;
        planned++;
        const allowed = mayOpen(model, truth, record, wanted);
        const draft = draftOf(truth);
        const entries = plan.sessions.flatMap(session => session.entries);
        const what = JSON.stringify({
          entries: entries.map(({ operation }) => written(operation)),
          truth: [...truth.slots.values()],
          wanted: [...wanted.slots.values()],
        });
        for (const { operation } of entries) {
          expect(apply(model, draft, operation), what).toBeUndefined();
          expect(isSafe(model, freeze(draft), allowed), what).toBe(true);
        }
        const acts = plan.sessions.flatMap(({ enter, entries: typed, leave }) =>
          [...enter, ...typed.flatMap(({ groups }) => groups), ...leave].flatMap(group => group.acts),
        );
        expect(sameMemory(replay(model, truth, acts).memory, wanted, model), what).toBe(true);
      }),
      { numRuns: runs(1200) },
    );
    if (isWhole) expect(planned).toBeGreaterThan(500);
  }, 120_000);
});

describe("unknown places", () => {
  const text = (rules: string, more = "") => `
    slots 1..3 per relay
    codes 4 digits
    ${rules}
    enter OK {installer} OK
    leave OK OK
    put code 7 {slot} {code} OK
    clear slot 9 {slot} OK
    set installer 31 {code} OK
    ${more}
    open code {code}
    keys 0..9 OK
    factory { installer code 9753 }`;
  const plan = (rules: string, before: string, wanted: string, more = "") => {
    const model = modelOf(text(rules, more));
    const found = planKeypad(model, memory(model, before), memory(model, wanted), { from: "fitted", knows: "all" });
    return "cannot" in found ? found.cannot : entriesOf(found);
  };

  test("are overwritten where that is taken whatever they hold", () => {
    expect(
      plan(
        "rewrite replaces twins all fire",
        "installer code 9753 relay 1 { 1 unknown 2 unknown }",
        "installer code 9753 relay 1 { 1 code 1111 }",
      ),
    ).toBe("1 clear slot /2 (unknown before)\n2 put code /1 1111");
  });

  test("are cleared before anything is written under twins refused", () => {
    expect(
      plan(
        "rewrite replaces twins refused",
        "installer code 9753 relay 1 { 1 unknown 2 code 2222 }",
        "installer code 9753 relay 1 { 1 code 1111 2 code 3333 }",
      ),
    ).toBe("1 clear slot /1 (unknown before)\n2 put code /2 3333 after 1\n3 put code /1 1111 after 1");
  });

  test("are cleared before they are written under rewrite refused", () => {
    expect(
      plan("rewrite refused twins all fire", "installer code 9753 relay 1 { 1 unknown }", "installer code 9753 relay 1 { 1 code 1111 }"),
    ).toBe("1 clear slot /1 (unknown before)\n2 put code /1 1111 after 1");
  });

  test("an installer code that nobody is sure of is set again", () => {
    expect(plan("rewrite replaces twins all fire", "relay 1 { 1 code 1111 }", "installer code 8642 relay 1 { 1 code 1111 }")).toBe(
      "1 set installer 8642 (unknown before)",
    );
  });
});

describe("little or nothing known", () => {
  const model = (more: string) =>
    modelOf(`
      relays 1 = 1, 2 = 2
      slots 1..2 per relay
      codes 4 digits
      rewrite replaces twins refused
      release 1s..9s
      enter OK {installer} OK
      leave OK OK
      put code 7 {relay} {slot} {code} OK
      set installer 31 {code} OK
      set release 6 {relay} {seconds} OK
      ${more}
      open code {code}
      keys 0..9 OK
      factory { installer code 9753 relay 1 release 3s }`);
  const wanted = (one: ReturnType<typeof modelOf>) => memory(one, "installer code 8642 relay 1 release 5s { 1 code 1111 }");
  const nothing = (one: ReturnType<typeof modelOf>) =>
    planKeypad(one, partlyKnown(one, { allRelay: new Map(), releases: new Map(), settings: new Map(), slots: new Map() }), wanted(one), {
      from: "unknown",
    });

  test("a keypad of which nothing is known is emptied by an entry where it has one", () => {
    const found = nothing(model("clear all 70 OK"));
    expect("cannot" in found ? found.cannot : entriesOf(found)).toBe(
      "1 clear all (unknown before)\n2 set release 1 5 after 1\n3 put code 1/1 1111 after 1",
    );
  });

  test("else by a reset, after which the installer code is the factory's", () => {
    const found = nothing(model('reset wipes everything "Bridge the pins"'));
    if ("cannot" in found) throw new Error(found.cannot);
    expect([found.reset?.text, found.start.from, entriesOf(found)]).toEqual([
      "Bridge the pins",
      "reset",
      "1 set installer 8642\n--\n2 set release 1 5\n3 put code 1/1 1111",
    ]);
  });

  test("else place by place", () => {
    const found = nothing(model("clear slot 9 {relay} {slot} OK"));
    expect("cannot" in found ? found.cannot : entriesOf(found).split("\n")).toEqual([
      "1 clear slot 1/2 (unknown before)",
      "2 clear slot 2/1 (unknown before) after 1",
      "3 clear slot 2/2 (unknown before) after 2",
      "4 clear slot 1/1 (unknown before) after 3",
      "5 set release 1 5",
      "6 put code 1/1 1111 after 4",
    ]);
  });

  test("of a partly known keypad what is listed stays, the rest is cleared", () => {
    const one = model("clear slot 9 {relay} {slot} OK");
    const found = planKeypad(one, partlyKnown(one, memory(one, "installer code 8642 relay 1 { 1 code 1111 }")), wanted(one), {
      from: "fitted",
      knows: "part",
    });
    expect(
      "cannot" in found
        ? found.cannot
        : entriesOf(found)
            .split("\n")
            .map(line => line.replace(/ after.*/, "")),
    ).toEqual([
      "1 clear slot 1/2 (unknown before)",
      "2 clear slot 2/1 (unknown before)",
      "3 clear slot 2/2 (unknown before)",
      "4 set release 1 5",
    ]);
  });
});
