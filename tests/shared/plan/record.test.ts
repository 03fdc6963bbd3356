import { describe, expect, test } from "vitest";
import { entryNumbers, recorded } from "../../../shared/plan/record.ts";
import { entriesOf, memory, modelOf, planOf } from "./keypads.ts";

const model = modelOf(`
  relays 1 = 1, 2 = 2
  slots 1..9 per relay
  codes 4 | 5 digits
  length follows installer code
  rewrite replaces twins refused relength clears
  release 1s..9s
  enter OK {installer} OK
  leave OK OK
  put code 7 {relay} {slot} {code} OK
  put tag 8 {relay} {slot} [present tag] OK
  clear slot 9 {relay} {slot} OK
  set installer 31 {code} OK
  set release 6 {relay} {seconds} OK
  clear all 70 OK
  open code {code}
  open tag [present tag]
  keys 0..9 OK
  factory { installer code 9753 }`);

const plan = planOf(
  model,
  "installer code 9753 relay 1 { 1 code 1111 2 code 2222 }",
  "installer code 9753 relay 1 release 5s { 1 code 2222 2 code 1111 3 tag 77 }",
);
const visit = (done: string, doubt = "") =>
  recorded(plan, { done: entryNumbers(done) ?? new Set(), doubt: entryNumbers(doubt) ?? new Set() });
const held = (lines: string) => memory(model, `installer code 9753 ${lines}`);

test("the plan of these tests", () => {
  expect(entriesOf(plan)).toBe(
    [
      "1 clear slot 1/1 (breaks a cycle)",
      "2 set release 1 5",
      "3 put code 1/2 1111 after 1",
      "4 put code 1/1 2222 after 1,3",
      "5 put tag 1/3 77",
    ].join("\n"),
  );
});

describe("what was typed", () => {
  test("all of it is what was wanted", () => {
    expect(recorded(plan, { done: "all", doubt: new Set() })).toMatchObject({
      knows: "all",
      entries: 5,
      memory: { slots: plan.target.slots },
    });
  });

  test("the tenant with the tag was away", () => {
    expect(visit("1-4")).toEqual({ knows: "all", entries: 4, memory: held("relay 1 release 5s { 1 code 2222 2 code 1111 }") });
  });

  test("nothing", () => {
    expect(visit("")).toEqual({ knows: "all", entries: 0, memory: held("relay 1 { 1 code 1111 2 code 2222 }") });
  });

  test("a doubtful entry makes its place unknown, a doubtful release time too", () => {
    const found = visit("1", "2,3");
    if ("refused" in found) throw new Error(found.refused);
    expect(found.memory.slots.get("1/2")).toEqual({ key: "1/2", fires: "1", number: 2, unknown: true });
    expect(found.memory.releases.get("1")).toBe("unknown");
  });
});

describe("is refused, naming entries by their numbers", () => {
  test.each([
    ["3", "", "entry 3 needs entry 1, which was left out: type that first, or record 3 as doubtful"],
    ["1,2,7", "", "there is no entry 7: the sheet's entries are 1 to 5"],
    ["1-3", "3", "entry 3 cannot be done and doubtful at once"],
    ["", "9", "there is no entry 9: the sheet's entries are 1 to 5"],
  ])("done %s, doubt %s", (done, doubt, refused) => {
    expect(visit(done, doubt)).toEqual({ refused });
  });
});

test("a doubtful installer code of another length leaves nobody sure of any code", () => {
  const change = planOf(
    model,
    "installer code 9753 relay 1 { 1 code 1111 2 tag 77 }",
    "installer code 86420 relay 1 { 1 code 11111 2 tag 77 }",
  );
  const found = recorded(change, { done: new Set(), doubt: new Set([1]) });
  if ("refused" in found) throw new Error(found.refused);
  expect(found.memory.installer).toBeUndefined();
  expect([...found.memory.slots.values()].map(({ code, tag, unknown }) => [code, tag, unknown])).toEqual([
    [undefined, undefined, true],
    [undefined, "77", undefined],
  ]);
});

test.each([
  ["1-6,8", [1, 2, 3, 4, 5, 6, 8]],
  ["", []],
  [" 3 , 1 - 2 ", [3, 1, 2]],
  ["2-1", undefined],
  ["0", undefined],
  ["1-", undefined],
  ["all", undefined],
  ["-1", undefined],
])("numbers of entries: %j", (text, numbers) => {
  const read = entryNumbers(text);
  expect(read && [...read]).toEqual(numbers);
});
