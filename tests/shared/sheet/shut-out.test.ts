/** Who is shut out between two entries, though they could get in before and will again. */
import { expect, test } from "vitest";
import { planFor } from "../../../shared/plan/start.ts";
import { emptiesEverything, shutOuts } from "../../../shared/sheet/shut-out.ts";
import { model, record, siteOf, wharf } from "./wharf.ts";

function planned(text: string, from: "fitted" | "factory" | "reset" = "fitted") {
  const site = siteOf(text);
  const keypad = site.keypads.get("gate");
  const plan = keypad && planFor(site, keypad, from);
  if (!plan || "cannot" in plan) throw new Error("the fixture can be planned");
  return plan;
}

test("nobody, where codes only come and go", () => {
  expect(shutOuts(planned(wharf + model + record))).toEqual([]);
  expect(shutOuts(planned(wharf + model, "factory"))).toEqual([]);
  expect(emptiesEverything(planned(wharf + model + record))).toBe(false);
});

test("who changes places, from the entry that takes the code out to the one that writes it again", () => {
  const plan = planned(wharf.replace("01 u1 02 u2 03 u3", "01 u3 02 u2 03 u1") + model + record);
  const entries = plan.sessions.flatMap(session => session.entries);
  const outs = shutOuts(plan);
  expect(outs.map(({ id }) => id)).toEqual(["code 48291", "code 73046"]);
  for (const { id, relay, from, until } of outs) {
    expect(relay).toBe("1");
    const written = entries.find(({ n }) => n === until)?.operation;
    expect(written?.operation === "put code" && `code ${written.code}`).toBe(id);
    const taken = entries.find(({ n }) => n === from)?.operation;
    expect(taken).toMatchObject({ relay: "1", slot: id === "code 48291" ? 1 : 3 });
    expect(from).toBeLessThan(until);
  }
});

test("a code that moves to another door is not shut out of the one it leaves", () => {
  const moved = wharf.replace("01 u1 02 u2", "02 u2").replace("{ 01 u3.yard }", "{ 01 u3.yard 02 u1 }");
  expect(shutOuts(planned(moved + model + record))).toEqual([]);
});

test("everyone, after a reset", () => {
  expect(emptiesEverything(planned(wharf + model + record, "reset"))).toBe(true);
});
