/** Small cases that random trials found: what an entry needs, so that whatever else of a plan is left out stays safe. */
import { expect, test } from "vitest";
import type { Traits } from "./drawn.ts";
import { drawnModel } from "./drawn.ts";
import { entriesOf, planOf } from "./keypads.ts";

const plain: Traits = {
  addressing: "per relay",
  holds: "",
  allRelay: "none",
  length: "one",
  rewrite: "replaces",
  twins: "first fires",
  relength: "keeps what was stored",
  acts: "after a pause",
  listens: "from the first key",
  session: "many entries",
  sets: false,
  tagTyped: true,
  clearRelay: true,
  without: [],
};

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

test("half a pair fires nothing while its twin fires first: the twin waits until the other half is written", () => {
  const model = drawnModel({ ...plain, addressing: "shared", holds: "holds code or tag", without: ["clear tag"] });
  const plan = planOf(
    model,
    "installer code 97 relay 1 { 1 code 22 or tag 102 2 code 11 or tag 102 }",
    "installer code 97 relay 2 { 2 code 12 or tag 100 }",
  );
  expect(entriesOf(plan)).toBe(["1 put code 2/2 12", "2 put tag 2/2 100 after 1", "3 clear slot /1 (no longer wanted) after 2"].join("\n"));
});

test("half a pair is written when the twin that will fire before it is there, and need not be cleared first", () => {
  const model = drawnModel({ ...plain, holds: "holds code with tag" });
  const plan = planOf(
    model,
    "installer code 97 relay 2 { 2 code 21 with tag 101 }",
    "installer code 97 relay 1 { 1 code 21 with tag 100 } relay 2 { 2 code 22 with tag 100 }",
  );
  expect(entriesOf(plan)).toBe(
    ["1 put code 1/1 21", "2 put tag 1/1 100", "3 put tag 2/2 100 after 1,2", "4 put code 2/2 22 after 3"].join("\n"),
  );
});

test("a code that a new length would wake wakes on the relay that its tag was written with", () => {
  const model = drawnModel({ ...plain, addressing: "shared", holds: "holds code or tag", length: "follows installer code" });
  const plan = planOf(
    model,
    "installer code 97 relay 2 { 2 code 111 or tag 101 }",
    "installer code 989 relay 1 { 1 code 111 or tag 101 2 code 211 or tag 102 }",
  );
  expect(entriesOf(plan)).toBe(
    [
      "1 put tag 1/2 102",
      "--",
      "2 set installer 989 after 1",
      "--",
      "3 put tag 1/1 101",
      "4 put code 1/1 111 after 2",
      "5 put code 1/2 211 after 1,2",
    ].join("\n"),
  );
});

test("a tag that its place fired before waits for no other place that held it too", () => {
  const model = drawnModel({ ...plain, addressing: "one per relay", holds: "holds code or tag" });
  const plan = planOf(
    model,
    "installer code 97 relay 1 { code 12 or tag 101 } relay 2 { code 11 or tag 101 }",
    "installer code 97 relay 1 { code 22 or tag 100 }",
  );
  expect(entriesOf(plan)).toBe(["1 clear slot 2 (no longer wanted)", "2 put code 1 22", "3 put tag 1 100 after 1"].join("\n"));
});

test("a code in two places is cleared with one entry before a new length takes it, though a tag beside it is asleep", () => {
  const model = drawnModel({ ...plain, holds: "holds code or tag", length: "follows installer code", relength: "clears" });
  const plan = planOf(
    model,
    "installer code 21 relay 1 { 3 code 12 or tag 100 } relay 2 { 2 code 21 or tag 102 3 code 21 or tag 100 }",
    "installer code 989 relay 2 { 3 code 211 }",
  );
  expect(entriesOf(plan)).toBe(
    [
      "1 clear code 2 21 (no longer wanted)",
      "--",
      "2 set installer 989 after 1",
      "--",
      "3 clear slot 1/3 (no longer wanted) after 1,2",
      "4 put code 2/3 211 (length changed) after 1,2",
    ].join("\n"),
  );
});

test("a code that falls asleep with the new installer code does not block it, and is written over", () => {
  const model = drawnModel({ ...plain, length: "follows installer code", twins: "refused", acts: "at once", listens: "to the last keys" });
  const plan = planOf(model, "installer code 97 relay 1 { 2 code 11 }", "installer code 112 relay 1 { 2 code 111 }");
  expect(entriesOf(plan)).toBe(["1 set installer 112", "--", "2 put code 1/2 111 after 1"].join("\n"));
});
