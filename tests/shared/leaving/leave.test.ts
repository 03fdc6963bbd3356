import { expect, test } from "vitest";
import { edited } from "../../../shared/edited.ts";
import { leave } from "../../../shared/leaving/leave.ts";
import { fixture, mullion, siteOf } from "../../support/fixture.ts";

function afterLeaving(text: string, id: string): { text: string; keypads: readonly string[]; installerOf: readonly string[] } {
  const read = fixture(text);
  const site = siteOf(read);
  const holder = site.holders.get(id);
  if (!holder) throw new Error("the fixture has the holder");
  const { edits, keypads, installerOf } = leave(site, holder);
  return {
    text: edited(read.files.get(read.root) ?? "", edits),
    keypads: keypads.map(keypad => keypad.id),
    installerOf: installerOf.map(keypad => keypad.id),
  };
}

test("every entry of the holder goes with its line, everything else stays as it is written", () => {
  const left = afterLeaving(
    mullion`
      holder u1 "Unit 1" code 4829 tag 8061261
      holder u2 "Unit 2" code 5591
      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Gate" {
          1   u1     // ground floor
          2 u2
          3 u1.tag
        }
      }
      keypad yard "Yard" : tiny {
        installer code 6044
        relay 1 "Yard" { 1 u2 }
      }
    `,
    "u1",
  );
  expect(left.text).toBe(
    fixture(mullion`
      holder u1 "Unit 1" code 4829 tag 8061261
      holder u2 "Unit 2" code 5591
      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Gate" {
          2 u2
        }
      }
      keypad yard "Yard" : tiny {
        installer code 6044
        relay 1 "Yard" { 1 u2 }
      }
    `).files.get("/main.mullion"),
  );
  expect([left.keypads, left.installerOf]).toEqual([["gate"], []]);
});

test("of a pair with another holder the other half stays where either opens", () => {
  const text = (mode: string) => `
      model both "Pairs" {
        relays 1 = 1
        slots 1..9 shared holds code ${mode} tag
        codes 4 digits
        rewrite replaces
        enter * {installer} #
        put code 1 {slot} {code} #
        put tag 2 {slot} [present tag] #
        clear slot 3 {slot} #
        open code {code}
        open tag [present tag]
        open both [present tag] {code}
        factory { installer code 9753 }
      }
      holder u1 "Unit 1" code 4829
      holder u2 "Unit 2" tag 8061261
      keypad gate "Gate" : both {
        installer code 6044
        relay 1 "Gate" {
          1 u1 ${mode} u2
        }
      }
  `;
  expect(afterLeaving(text("or"), "u1").text).toContain("1 u2\n");
  expect(afterLeaving(text("or"), "u2").text).toContain("1 u1\n");
  expect(afterLeaving(text("with"), "u1").text).not.toMatch(/^\s+1 u/m);
});

test("whose installer code it is, is said", () => {
  const left = afterLeaving(
    mullion`
      holder firm "Our codes" code gate 6044
      keypad gate "Gate" : tiny {
        installer code firm.gate
        relay 1 "Gate" no codes
      }
    `,
    "firm",
  );
  expect([left.keypads, left.installerOf]).toEqual([[], ["gate"]]);
});
