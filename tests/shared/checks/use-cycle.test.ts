import { expect, test } from "vitest";
import { checkFindings, mullion } from "../../support/fixture.ts";

test("a file that uses itself", () => {
  checkFindings(mullion`
    //- a.mullion
    use "a.mullion"
      //^^^^^^^^^^^ use-cycle
  `);
});

test("a ring of three is one finding, with the other uses as related places", () => {
  const [finding] = checkFindings(mullion`
    //- a.mullion
    use "b.mullion"
    //- b.mullion
    use "c.mullion"
    //- c.mullion
    use "a.mullion"
      //^^^^^^^^^^^ use-cycle
  `);
  expect(finding?.message).toBe("these files use each other: a.mullion, b.mullion, c.mullion, a.mullion");
  expect(finding?.related.map(({ file }) => file)).toEqual(["/a.mullion", "/b.mullion"]);
});

test("one file used on two ways is no ring", () => {
  checkFindings(mullion`
    //- a.mullion
    use "b.mullion"
    use "c.mullion"
    //- b.mullion
    use "d.mullion"
    //- c.mullion
    use "d.mullion"
    //- d.mullion
    holder u1 "Unit 1"
  `);
});
