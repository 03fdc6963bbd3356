import { expect, test } from "vitest";
import { heldByText, planFor } from "../../../shared/plan/start.ts";
import { wantedMemory } from "../../../shared/plan/wanted.ts";
import { mullion, siteOf } from "../../support/fixture.ts";
import { entriesOf } from "./keypads.ts";

const text = (fitted: string) => mullion`
  model heron "One relay" {
    slots 01..09 per relay
    codes 4 digits
    rewrite replaces
    release 1s..9s
    enter OK {installer} OK
    leave OK OK
    put code 7 {slot} {code} OK
    put tag 8 {slot} [present tag] OK
    clear slot 9 {slot} OK
    set installer 31 {code} OK
    set release 6 {seconds} OK
    reset wipes everything "Bridge the pins"
    open code {code}
    open tag [present tag]
    keys 0..9 OK
    factory { installer code 9753 relay 1 release 3s }
  }
  holder u1 "Unit 1" code 4829 tag "red dot"
  holder u2 "Unit 2" until 2020-01-01 code 5591
  holder u3 "Unit 3" tag 77 lost
  keypad gate "Gate" : heron {
    installer code 6044
    relay 1 "Gate" {
      01 u1
      02 u2
      03 u1.tag
    }
  }
  ${fitted}
`;

function planned(fitted: string, from?: "fitted" | "factory" | "reset"): string {
  const site = siteOf(text(fitted));
  const keypad = site.keypads.get("gate");
  if (!keypad) throw new Error("the site of the test has its keypad");
  const plan = planFor(site, keypad, from);
  return "cannot" in plan ? plan.cannot : `${plan.start.from}${plan.reset ? `, ${plan.reset.text}` : ""}\n${entriesOf(plan)}`;
}

const record =
  "fitted gate 2026-11-20 {\n  model heron\n  installer code 6044\n  relay 1 release 5s {\n    01 code 4829\n    04 tag 77\n  }\n}";

test("without a record a keypad is as it left the factory; what has lapsed is typed as well", () => {
  expect(planned("")).toBe('factory\n1 set installer 6044\n--\n2 put code /1 4829\n3 put code /2 5591\n4 put tag /3 "red dot"');
});

test("from its record only the difference is typed; a release time that the text does not state stays", () => {
  expect(planned(record)).toBe('fitted\n1 clear slot /4 (no longer wanted)\n2 put code /2 5591\n3 put tag /3 "red dot"');
});

test("or from factory-new, or from a reset by hand, whatever the record says", () => {
  expect(planned(record, "factory").split("\n")[0]).toBe("factory");
  expect(planned(record, "reset").split("\n").slice(0, 2)).toEqual(["reset, Bridge the pins", "1 set installer 6044"]);
});

test("or from what an earlier text wanted", () => {
  const [earlier, now] = [siteOf(text("").replace("02 u2", "04 u2")), siteOf(text(""))].map(site => ({
    site,
    keypad: site.keypads.get("gate"),
  }));
  if (!earlier?.keypad?.model || !now?.keypad) throw new Error("the sites of the test have their keypads");
  const plan = planFor(now.site, now.keypad, { held: heldByText(earlier.keypad.model, earlier.keypad) });
  expect("cannot" in plan ? plan.cannot : entriesOf(plan)).toBe("1 clear slot /4 (frees a twin)\n2 put code /2 5591 after 1");
});

test("a record of another model has no plan", () => {
  expect(planned("fitted gate 2026-11-20 {\n  model egret\n  installer code 6044\n}")).toBe(
    "the record of this keypad is of a egret, the text says heron",
  );
});

test("a keypad of which nothing is known is reset by hand where no entry empties it", () => {
  expect(planned("fitted gate unknown").split("\n").slice(0, 2)).toEqual(["reset, Bridge the pins", "1 set installer 6044"]);
});

test("what is wanted: places in the order of the text, lapsed and lost ones too, the rest as before", () => {
  const site = siteOf(text(record));
  const keypad = site.keypads.get("gate");
  if (!keypad?.fitted?.memory) throw new Error("the site of the test has its record");
  const wanted = wantedMemory(keypad, keypad.fitted.memory);
  expect([...wanted.slots.values()].map(({ number, code, tag }) => [number, code ?? tag])).toEqual([
    [1, "4829"],
    [2, "5591"],
    [3, '"red dot"'],
  ]);
  expect([wanted.installer, wanted.releases.get("1")]).toEqual(["6044", 5]);
});
