/** `mullion doors`, as a user runs it. */
import { expect, test } from "vitest";
import { folderOf, model, mullion, site } from "./support/mullion.ts";

const yard = () =>
  folderOf({
    "yard.mullion": `${site}
door "Foot gate" { lock strike 12 V 350 mA fail-secure }
supply cupboard "Riser cupboard" 13.8 V 3 A { feeds "Foot gate" }
`,
    "tiny.mullion": model,
  });

test("lists doors and supplies", () => {
  const { status, out, err } = mullion(["doors", "yard.mullion"], { cwd: yard() });
  expect({ status, err }).toEqual({ status: 0, err: "" });
  expect(out).toContain("strike, 12 V, 350 mA, fail-secure");
  expect(out).toContain("to be said before the rest can be worked out: the cable");
  expect(out).toContain("Riser cupboard (supply cupboard)");
});

test("stands alone on standard output as JSON", () => {
  const { status, out } = mullion(["doors", "yard.mullion", "--format", "json"], { cwd: yard() });
  expect(status).toBe(0);
  expect(Object.keys(JSON.parse(out))).toEqual(["site", "doors", "supplies", "decides"]);
});

test("a door that is not there is said with what was meant", () => {
  const { status, out, err } = mullion(["doors", "yard.mullion", "--door", "Foot gat"], { cwd: yard() });
  expect({ status, out }).toEqual({ status: 2, out: "" });
  expect(err).toContain("no door is called Foot gat");
  expect(err).toContain("Foot gate");
});
