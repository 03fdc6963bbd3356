import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { format } from "../../../grammar/format.ts";
import { parse } from "../../../grammar/parse.ts";
import type { Memory } from "../../../shared/keypad/memory.ts";
import { sameMemory } from "../../../shared/keypad/memory-equal.ts";
import type { Holders } from "../../../shared/plan/print-fitted.ts";
import { holdersOf, printFitted, printUnknown, withFitted } from "../../../shared/plan/print-fitted.ts";
import { runs } from "../../support/chance.ts";
import { mullion, siteOf } from "../../support/fixture.ts";
import { drawnMemory, drawnModel, picks, traits } from "./drawn.ts";
import { memory, modelOf } from "./keypads.ts";

const nobody: Holders = { code: () => undefined, tag: () => undefined };

const model = modelOf(
  `relays 1 = 4, 2 = 5, 1+2 = 6
   slots 01..20, 90..92 all-relay shared holds code or tag
   codes 5 digits
   release 1s..9s, toggle = 00
   setting "key light" 0..2 factory 1 81 {value}
   enter OK {installer} OK
   put code 7 {relay} {slot} {code} OK
   put tag 8 {relay} {slot} [present tag] OK
   set all-relay 32 {slot} {code} OK
   set release 6 {relay} {seconds:2} OK
   open code {code}
   open tag [present tag]
   open all-relay {relay-number} B {code}
   keys 0..9 B OK
   factory { installer code 24680 }`,
  "knot-4",
);

test("one fact a line, relays and slots ascending, pairs, sets, marks, what is unknown", () => {
  const held = memory(
    model,
    `installer code 60441
     all-relay 91 unknown all-relay 90 code 91827
     setting "key light" 2
     relay 2 { 07 unknown 03 tag "red dot" }
     relay 1+2 release toggle { 12 code 48291 }
     relay 1 release 5s { 05 code 55910 or tag 8061261 }`,
  );
  expect(printFitted("gate", model, "2026-11-20", held, nobody)).toBe(
    [
      "fitted gate 2026-11-20 {",
      "  model knot-4",
      "  installer code 60441",
      "  all-relay 90 code 91827",
      "  all-relay 91 unknown",
      '  setting "key light" 2',
      "  relay 1 release 5s {",
      "    05 code 55910 or tag 8061261",
      "  }",
      "  relay 1+2 release toggle {",
      "    12 code 48291",
      "  }",
      "  relay 2 {",
      '    03 tag "red dot"',
      "    07 unknown",
      "  }",
      "}",
    ].join("\n"),
  );
});

test("behind a line stands who has what is there; a tag with a mark carries it", () => {
  const site = siteOf(mullion`
    holder u1 "Unit 1"
      code 4829
      tag 8061261 "blue fob"
    holder u2 "Unit 2" code 5591
    keypad gate "Gate" : tiny {
      installer code 6044
      relay 1 "Gate" {
        1 u1
        2 u1.tag
      }
    }
  `);
  const keypad = site.keypads.get("gate");
  if (!keypad?.model) throw new Error("the site of the test has its keypad");
  const held = memory(keypad.model, "installer code 6044 relay 1 { 1 code 4829 2 tag 8061261 3 code 7777 }");
  expect(printFitted("gate", keypad.model, "2026-11-20", held, holdersOf(site, keypad)).split("\n").slice(3, 7)).toEqual([
    "  relay 1 {",
    "    1 code 4829              // u1",
    '    2 tag 8061261 "blue fob" // u1.tag',
    "    3 code 7777",
  ]);
});

test("whatever a memory is, it is read back from its record, which the formatter leaves as it is", () => {
  fc.assert(
    fc.property(traits, picks, fc.boolean(), (drawn, pick, doubt) => {
      const drawnAs = drawnModel(drawn);
      const held = drawnMemory(drawnAs, pick, false);
      const unknown: Memory = doubt
        ? {
            ...held,
            slots: new Map(
              [...held.slots].map(([key, { code, tag, ...place }]) => [
                key,
                drawnAs.slots.addressing === "unnumbered"
                  ? { ...place, ...(code ? { code } : { tag: tag ?? "1" }), unknown: true }
                  : { ...place, unknown: true },
              ]),
            ),
            allRelay: new Map(
              [...held.allRelay].map(([key, { number }]) => [key, { ...(number === undefined ? {} : { number }), unknown: true }]),
            ),
          }
        : held;
      const text = printFitted("gate", drawnAs, "2026-11-20", unknown, nobody);
      expect(format(`${text}\n`)).toBe(`${text}\n`);
      const lines = text.split("\n").slice(1, -1).join("\n");
      expect(sameMemory(memory(drawnAs, lines), unknown), text).toBe(true);
    }),
    { numRuns: runs(1000) },
  );
});

describe("a file of several records", () => {
  const block = (code: string) => printFitted("gate", model, "2026-11-20", memory(model, `installer code ${code}`), nobody);
  const others = "// ours\nfitted back 2026-01-01 {\n  model knot-4   // as found\n}\n";

  test("takes a new one at its end, and no other character changes", () => {
    expect(withFitted(others, "gate", block("60441"))).toBe(`${others}\n${block("60441")}\n`);
    expect(withFitted("", "gate", printUnknown("gate"))).toBe("fitted gate unknown\n");
    expect(withFitted("\uFEFF", "gate", printUnknown("gate"))).toBe("\uFEFFfitted gate unknown\n");
  });

  test("has the block of one keypad replaced where it stands", () => {
    const file = `${block("60441")} // done\n\n${others}`;
    expect(withFitted(file, "gate", block("60442"))).toBe(`${block("60442")} // done\n\n${others}`);
    expect(withFitted(`fitted gate unknown\n${others}`, "gate", block("60442"))).toBe(`${block("60442")}\n${others}`);
  });

  test("keeps its line ends", () => {
    const file = `${others}\n`.replaceAll("\n", "\r\n");
    const written = withFitted(file, "gate", block("60441"));
    expect(written?.replaceAll("\r\n", "")).not.toContain("\n");
    expect(parse(written ?? "").tree.declarations).toHaveLength(2);
  });

  test("is left alone where it cannot be read: nobody could say where a block ends", () => {
    expect(withFitted("fitted gate 2026-11-20 {\n  relay 1 {\n", "gate", block("60441"))).toBeUndefined();
  });
});
