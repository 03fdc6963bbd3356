/** Small cases that random trials found: what an entry needs, so that whatever else of a plan is left out stays safe. */
import { expect, test } from "vitest";
import { drawnModel } from "./drawn.ts";
import { entriesOf, planOf } from "./keypads.ts";

test("a new length that would wake a code inside the old installer code waits for the new installer code", () => {
  const model = drawnModel({
    addressing: "unnumbered",
    holds: "",
    allRelay: "none",
    length: "set by entry",
    rewrite: "refused",
    twins: "all fire",
    relength: "keeps what was stored",
    acts: "at once",
    listens: "to the last keys",
    session: "many entries",
    sets: false,
    tagTyped: true,
    clearRelay: true,
    without: ["clear all-relay"],
  });
  const plan = planOf(
    model,
    "installer code 112 code length 3 relay 2 { code 11 }",
    "installer code 97 code length 2 relay 2 { code 11 code 21 }",
  );
  expect(entriesOf(plan)).toBe(["1 set installer 97", "--", "2 set length 2 after 1", "3 put code 2 21 after 2"].join("\n"));
});

test("a pair that kept its twin asleep keeps it so until the twin is cleared, whichever of its halves is written first", () => {
  const model = drawnModel({
    addressing: "per relay",
    holds: "holds code with tag",
    allRelay: "none",
    length: "one",
    rewrite: "replaces",
    twins: "first fires",
    relength: "clears",
    acts: "at once",
    listens: "from the first key",
    session: "many entries",
    sets: true,
    tagTyped: false,
    clearRelay: false,
    without: [],
  });
  const plan = planOf(
    model,
    "installer code 97 relay 1 { 3 code 12 with tag 100 } relay 2 { 3 code 12 with tag 100 }",
    "installer code 97 relay 1 { 1 code 12 with tag 101 3 code 11 with tag 101 }",
  );
  const entries = plan.sessions.flatMap(session => session.entries);
  const clear = entries.find(({ operation }) => operation.operation === "clear slot");
  const written = entries.filter(({ operation }) => "slot" in operation && operation.slot === 3 && operation !== clear?.operation);
  expect(written.map(({ needs }) => needs.includes(clear?.n ?? 0))).toEqual([true, true]);
});
