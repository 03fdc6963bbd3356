/** What `mullion doors` lists, in each of its forms. */
import { parse as parseCsv } from "csv-parse/sync";
import { describe, expect, test } from "vitest";
import { doorsFormats } from "../../../shared/doors/formats/index.ts";
import { doorsList } from "../../../shared/doors/list.ts";
import { mullion, siteOf } from "../../support/fixture.ts";

const wired = (label = "Foot gate") => mullion`
  site "Wharf"
  holder u1 "Unit 1" code 4829
  keypad gate "Gate" : tiny {
    installer code 6044
    relay 1 "${label}" release 5s {
      1 u1
    }
    relay 2 "Store" release 5s { }
  }
  door "${label}" {
    lock strike 12 V 350 mA fail-secure
    cable 28 m 0.75 mm2
    exit button
    route escape
  }
  supply cupboard "Riser cupboard" 13.8 V 3 A {
    battery 12 V 7 Ah for 4 h
    feeds "${label}", keypad gate
  }
`;
const rendered = (name: string, text = wired(), door?: string) => {
  const format = doorsFormats.find(each => each.name === name);
  if (!format) throw new Error(`no format ${name}`);
  return format.render(doorsList(siteOf(text), door));
};

test("as text: each door with its relays, its sum, its cautions; each supply; and who decides", () => {
  const said = rendered("text");
  expect(said).toContain("Foot gate\n  relay 1 of Gate, open for 5 s\n  strike, 12 V, 350 mA, fail-secure; takes 10.8 V to 13.2 V\n");
  // By hand: 24.5 Ω/km (IEC 60228) × 2 × 0.028 km = 1.372 Ω; × 0.35 A = 0.48 V; 13.8 V − 0.48 V = 13.32 V.
  expect(said.replace(/\s+/g, " ")).toContain("13.8 V less 0.48 V over 2 × 28 m of 0.75 mm² at 20 °C (1.372 Ω) leaves 13.32 V");
  expect(said.replace(/\s+/g, " ")).toContain("caution: Foot gate is on an escape route and people leave by a button");
  expect(said).toContain("Store\n  relay 2 of Gate, open for 5 s\n  nothing more is said of it\n");
  expect(said).toContain("Riser cupboard (supply cupboard)\n  13.8 V, 3 A\n");
  expect(said.endsWith("Local code, the maker's instructions and a competent person decide.\n")).toBe(true);
  expect(Math.max(...said.split("\n").map(line => line.length))).toBeLessThanOrEqual(92);
});

test("as JSON: numbers in volts, amperes and ohms", () => {
  const { doors, supplies } = JSON.parse(rendered("json"));
  expect(doors.map((door: { label: string }) => door.label)).toEqual(["Foot gate", "Store"]);
  expect(doors[0]).toMatchObject({
    relays: [{ keypad: "gate", relay: "1", release: "5 s" }],
    lock: { kind: "strike", ratedVolts: 12, ratedAmps: 0.35, withoutPower: "fail-secure" },
    cable: { metres: 28, mm2: 0.75, ohms: 1.372 },
    onMains: { supplyVolts: 13.8, dropVolts: 0.4802, volts: 13.3198 },
    atBatteryEnd: { supplyVolts: 10.8, volts: 10.3198 },
    fedBy: ["cupboard"],
  });
  expect(supplies[0]).toMatchObject({ id: "cupboard", volts: 13.8, amps: 3, battery: { ampHours: 7, hoursAsked: 4 } });
});

test("as CSV: numbers can be summed, words cannot be formulas", () => {
  const rows = parseCsv(rendered("csv", wired("=1+1")), { bom: true, columns: true }) as Record<string, string>[];
  expect(rows.map(({ what }) => what)).toEqual(["door", "door", "supply"]);
  expect(rows[0]).toMatchObject({ label: "'=1+1", "rated V": "12", "rated A": "0.35", "at the lock on mains V": "13.32" });
  expect(rows[2]).toMatchObject({ label: "Riser cupboard", "supply A": "3" });
});

test("as Markdown: labels stay words", () => {
  const said = rendered("md", wired("<b>*gate*</b>"));
  expect(said).not.toContain("<b>");
  expect(said).toContain("## ");
  expect(said).toContain("> Caution: ");
});

describe("one door", () => {
  test("comes with what feeds it", () => {
    const list = doorsList(siteOf(wired()), "Foot gate");
    expect(list.doors.map(({ label }) => label)).toEqual(["Foot gate"]);
    expect(list.supplies.map(({ sum }) => sum.id)).toEqual(["cupboard"]);
  });
  test("that nothing feeds comes alone", () => {
    const list = doorsList(siteOf(wired()), "Store");
    expect(list.doors.map(({ label }) => label)).toEqual(["Store"]);
    expect(list.supplies).toEqual([]);
  });
});

test.each(doorsFormats)("no code and no promise in $name", ({ name }) => {
  const said = rendered(name);
  expect(said).not.toMatch(/4829|6044/);
  expect(said).not.toMatch(/compliant|certified|safe to use/i);
});

test("a site without doors says so", () => {
  expect(rendered("text", 'site "Wharf"\n')).toBe("Wharf has no doors yet.\n");
});
