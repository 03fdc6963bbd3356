import fc from "fast-check";
import { expect, test } from "vitest";
import { apply } from "../../../shared/keypad/apply.ts";
import { doorOf } from "../../../shared/keypad/door.ts";
import { draftOf, freeze } from "../../../shared/keypad/draft.ts";
import type { Memory, Operation } from "../../../shared/keypad/memory.ts";
import type { Model } from "../../../shared/keypad/model.ts";
import { textOf } from "../../../shared/keypad/open-strings.ts";
import { Openings } from "../../../shared/plan/openings.ts";
import { writing } from "../../../shared/plan/operation-of.ts";
import { placesOf } from "../../../shared/plan/place.ts";
import { touchedBy } from "../../../shared/plan/touched.ts";
import { runs } from "../../support/chance.ts";
import { drawnMemory, drawnModel, picks, traits } from "./drawn.ts";

/** What the openings say, as the door recogniser writes it. */
function opened(openings: Openings): Record<string, readonly string[]> {
  const found = new Map<string, Set<string>>();
  for (const string of openings.all()) {
    const relays = openings.fires(string);
    const text = textOf(string.symbols);
    if (relays.length > 0) found.set(text, new Set([...(found.get(text) ?? []), ...relays]));
  }
  return Object.fromEntries([...found].map(([text, relays]) => [text, [...relays].sort()] as const).sort());
}

function byTheDoor(model: Model, memory: Memory): Record<string, readonly string[]> {
  return Object.fromEntries([...doorOf(model, memory).opens].map(([text, relays]) => [text, [...relays].sort()] as const).sort());
}

/** Writes what the second memory holds into the first, and clears what was there, in some order. */
function operations(model: Model, from: Memory, to: Memory): readonly Operation[] {
  const places = placesOf(from, to);
  return places.flatMap(place => {
    const writes = (["code", "tag"] as const).flatMap(half => writing(model, place, half) ?? []);
    const clears: Operation[] = place.from.code === undefined ? [] : [{ operation: "clear code", code: place.from.code }];
    return [...writes, ...clears];
  });
}

test("kept up to date place by place, they say what the door recogniser says of the whole memory", () => {
  fc.assert(
    fc.property(traits, picks, picks, (drawn, old, next) => {
      const model = drawnModel(drawn);
      const [before, after] = [drawnMemory(model, old, false), drawnMemory(model, next, false)];
      const draft = draftOf(before);
      const openings = new Openings(model, before);
      expect(opened(openings)).toEqual(byTheDoor(model, before));
      for (const operation of operations(model, before, after)) {
        const touched = touchedBy(model, draft, operation);
        if (apply(model, draft, operation)) continue;
        for (const key of touched.slots) openings.setSlot(key, draft.slots.get(key));
        for (const key of touched.allRelay) openings.setAllRelay(key, draft.allRelay.get(key));
        const memory = freeze(draft);
        expect(opened(openings)).toEqual(byTheDoor(model, memory));
        expect(openings.at("enter").every(enter => openings.blocking(enter).length === 0)).toBe(
          doorOf(model, memory).blocksEnter === undefined,
        );
      }
    }),
    { numRuns: runs(1000) },
  );
});
