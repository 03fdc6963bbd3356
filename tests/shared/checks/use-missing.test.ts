import { expect, test } from "vitest";
import { checkFix } from "../../support/fixes.ts";
import { checkFindings, mullion } from "../../support/fixture.ts";

test("each missing file, and nothing for a path that is still empty", () => {
  const findings = checkFindings(mullion`
    use "nowhere.mullion"
      //^^^^^^^^^^^^^^^^^ use-missing
    use "back\\slash.mullion"
      //^^^^^^^^^^^^^^^^^^^^^ use-missing
    use ""
  `);
  expect(findings[1]?.message).toContain("written with /");
});

test("the ending that was forgotten is put in", () => {
  checkFix(
    mullion`
      //- a.mullion
      use "models/x"
      site "Wren Yard"
      //- models/x.mullion
      holder u1 "Unit 1"
    `,
    "use-missing",
    "Change to models/x.mullion",
    mullion`
      //- a.mullion
      use "models/x.mullion"
      site "Wren Yard"
      //- models/x.mullion
      holder u1 "Unit 1"
    `,
  );
});
