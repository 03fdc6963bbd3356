import { expect, test } from "vitest";
import { findingsAcross } from "../../../shared/checks/across.ts";
import { checkFindings, fixture, mullion, sitesOf } from "../../support/fixture.ts";

test("one hint for each code, at the first path's line, with the others related", () => {
  const findings = checkFindings(mullion`
    //- b.mullion
    site "Bell yard"
    keypad gate "Bell gate" : tiny {
      installer code 6044
      relay 1 "Gate" no codes
    }
    //- a.mullion
    site "Alder yard"
    keypad gate "Alder gate" : tiny {
      installer code 6044
    //^^^^^^^^^^^^^^^^^^^ installer-reused
      relay 1 "Gate" no codes
    }
    keypad back "Alder back" : tiny {
      installer code 6044
      relay 1 "Back" no codes
    }
    //- c.mullion
    site "Cob yard"
    holder firm "Our codes" code gate 6044
    keypad gate "Cob gate" : tiny {
      installer code firm.gate
      relay 1 "Gate" no codes
    }
  `);
  expect(findings.map(({ severity, message }) => `${severity}: ${message}`)).toEqual([
    "hint: the installer code of Alder gate opens programming at other sites too: Bell gate (Bell yard), Cob gate (Cob yard)",
  ]);
  expect(findings[0]?.related.map(({ file }) => file)).toEqual(["/b.mullion", "/c.mullion"]);
});

test("within one site it is no matter", () => {
  checkFindings(mullion`
    site "Alder yard"
    keypad gate "Gate" : tiny {
      installer code 6044
      relay 1 "Gate" no codes
    }
    keypad back "Back" : tiny {
      installer code 6044
      relay 1 "Back" no codes
    }
  `);
});

test("it may be allowed, and the allowance is not called unused", () => {
  checkFindings(mullion`
    //- a.mullion
    site "Alder yard"
    keypad gate "Alder gate" : tiny {
      installer code 6044 // allow installer-reused: one for all of ours
      relay 1 "Gate" no codes
    }
    //- b.mullion
    site "Bell yard"
    keypad gate "Bell gate" : tiny {
      installer code 6044
      relay 1 "Gate" no codes
    }
  `);
});

test("one tag with two holders at two sites is a warning; one holder at both is none", () => {
  const text = (second: string) => `
    //- a.mullion
    site "Alder yard"
    holder u1 "Rowan" tag 8061262
${second === "Rowan" ? "" : "                        //^^^^^^^ tag-twice"}
    keypad gate "Alder gate" : tiny {
      installer code 6044
      relay 1 "Gate" {
        1 u1
      }
    }
    //- b.mullion
    site "Bell yard"
    holder k7 "${second}" tag 123,00334
    keypad gate "Bell gate" : tiny {
      installer code 7053
      relay 1 "Gate" {
        1 k7
      }
    }
  `;
  const [finding] = checkFindings(text("Willow"));
  expect([finding?.severity, finding?.message]).toEqual(["warning", "Rowan carries a tag that others carry too: Willow (Bell yard)"]);
  checkFindings(text("Rowan"));
});

test("two thousand sites are looked over in one go", () => {
  const [site] = sitesOf(
    fixture(mullion`
      site "Alder yard"
      keypad gate "Alder gate" : tiny {
        installer code 6044
        relay 1 "Gate" no codes
      }
    `),
  );
  if (!site) throw new Error("the fixture is a site");
  // One file, two thousand roots: said once, so there is nothing to find.
  expect(findingsAcross(Array.from({ length: 2_000 }, (_, i) => ({ ...site, root: `/site-${i}.mullion` })))).toEqual([]);
});
