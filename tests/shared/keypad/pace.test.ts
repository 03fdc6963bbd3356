/** A long run replays in time that grows with its length and no faster. */
import { expect, test } from "vitest";
import { doorOf } from "../../../shared/keypad/door.ts";
import { encode, encodeEnter } from "../../../shared/keypad/encode.ts";
import { replay } from "../../../shared/keypad/replay.ts";
import { actsIn, modelOf } from "../../support/keypad.ts";

const model = modelOf(`model large "A place for everyone" {
  relays 1 = 4, 2 = 5
  slots 00000..99999 per relay
  codes 6 digits
  twins refused
  enter * {installer} #
  put code 7 {relay} {slot} {code} #
  clear slot 9 {relay} {slot} #
  open code {code}
  factory {
    installer code 975310
  }
}`);

/** Least of three, since other work on the machine only ever adds. Milliseconds. */
function milliseconds(places: number): { readonly replayed: number; readonly opened: number } {
  const acts = [...actsIn(encodeEnter(model, "975310"))];
  for (let slot = 0; slot < places; slot++) {
    acts.push(...actsIn(encode(model, { operation: "put code", relay: "1", slot, code: `${100_000 + slot}` }, {})));
  }
  let [replayed, opened] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  for (let i = 0; i < 3; i++) {
    const start = performance.now();
    const { memory } = replay(model, model.factory, acts);
    const middle = performance.now();
    const { opens } = doorOf(model, memory);
    opened = Math.min(opened, performance.now() - middle);
    replayed = Math.min(replayed, middle - start);
    expect([memory.slots.size, opens.size]).toEqual([places, places]);
  }
  return { replayed, opened };
}

test("3,000 places in tens of milliseconds, 30,000 in about ten times as long", () => {
  const few = milliseconds(3_000);
  const many = milliseconds(30_000);
  console.log(
    `replay: ${few.replayed.toFixed(0)} ms and ${many.replayed.toFixed(0)} ms; door: ${few.opened.toFixed(0)} ms and ${many.opened.toFixed(0)} ms`,
  );
  expect(few.replayed).toBeLessThan(150);
  // Ten times as much; a quadratic one would take a hundred times as long.
  expect(many.replayed).toBeLessThan(30 * Math.max(few.replayed, 10));
  expect(many.opened).toBeLessThan(30 * Math.max(few.opened, 10));
});
