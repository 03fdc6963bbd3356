/** Text that is still being typed, or was torn: every check goes on, every finding and every fix stays inside the text. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { findingsOf, fixesFor } from "../../../shared/checks/run.ts";
import { runs } from "../../support/chance.ts";
import { fixture, mullion, siteOf, today } from "../../support/fixture.ts";
import { either, loose, running, shared, two } from "../../support/models.ts";

const whole = mullion`
  ${two}
  ${shared}
  ${loose}
  ${either}
  ${running}
  site "Wren Yard" { address "Slip Lane" }
  policy { weak codes refuse near codes 3 digits guess odds 1 in 1000 }
  holder u1 "Unit 1"
    until 2026-09-30
    code 4829
    code long 48291 until 2026-12-01
    tag 8061262
    tag bike 123,00334 lost
  holder u2 "Unit 2" tag "red dot" code 5591
  keypad gate "Gate" : two {
    installer code 6044
    all-relay code u2
    relay 1 "Foot gate" release 5s {
      01 u1
      1 u1.tag
      61 u9
      02 u1.bike or u1 // allow pair-mode: no
    }
    relay 2 spare
  }
  keypad back "Back" : shared {
    installer code 604418
    all-relay 990 code u1
    relay 1+2 { 001 u1 }
    relay 2 "Vehicle gate" release toggle { 100 u1.tag }
  }
  keypad loft "Loft" : loose {
    installer code 60441
    relay 1 { u1.long }
  }
  keypad yard "Yard" : either {
    relay 1 { 01 u1 or u1.tag 02 u2 with u2.tag }
  }
  keypad hall "Hall" : running {
    code length 4
    setting "key light" 9
    relay 1 { 01 u1 }
  }
  fitted gate 2026-11-20 partly {
    model two
    installer code 6044
    relay 1 release 5s { 01 code 4829 02 unknown 70 tag 8061262 }
  }
  fitted back unknown
  door "Foot gate" { lock strike 12 V 350 mA fail-secure route escape }
  supply box "Box" 13.8 V 3 A { battery 12 V 7 Ah for 4 h feeds "Foot gate", keypad gate }
`;
const text = fixture(whole).files.get("/main.mullion") ?? "";

function goesOn(torn: string): void {
  const site = siteOf({ root: "/main.mullion", files: new Map([["/main.mullion", torn]]), marks: [] });
  const findings = findingsOf(site, { today });
  const said = findings.map(({ file, start, end, code, message }) => `${file} ${start} ${end} ${code} ${message}`);
  expect(said.filter((one, index) => said.indexOf(one) !== index)).toEqual([]);
  for (const finding of findings) {
    const own = site.files.find(({ file }) => file === finding.file)?.text.length ?? -1;
    expect(finding.start).toBeGreaterThanOrEqual(0);
    expect(finding.end).toBeGreaterThanOrEqual(finding.start);
    expect(finding.end).toBeLessThanOrEqual(own);
    for (const { edits } of fixesFor(finding, site)) {
      for (const edit of edits) {
        expect(edit.start).toBeLessThanOrEqual(edit.end);
        expect(edit.end).toBeLessThanOrEqual(site.files.find(({ file }) => file === edit.file)?.text.length ?? -1);
      }
    }
  }
}

test("cut off anywhere", () => {
  for (let end = 0; end < text.length; end += 11) goesOn(text.slice(0, end));
});

test("with a piece torn out anywhere, or put somewhere else", () => {
  fc.assert(
    fc.property(fc.nat(text.length), fc.nat(60), fc.nat(text.length), (from, length, to) => {
      const piece = text.slice(from, from + length);
      const torn = text.slice(0, from) + text.slice(from + length);
      goesOn(torn);
      goesOn(torn.slice(0, to) + piece + torn.slice(to));
    }),
    { numRuns: runs(150) },
  );
});

test.each([
  ["CRLF", text.replaceAll("\n", "\r\n")],
  ["a byte order mark", `\ufeff${text}`],
  ["tabs", text.replaceAll("  ", "\t")],
  ["nothing but blanks", " \n\t \r\n"],
  ["one character", "{"],
])("%s", (_name, other) => {
  goesOn(other);
});

test("line ends and a byte order mark change no finding", () => {
  const codes = (one: string) =>
    findingsOf(siteOf({ root: "/main.mullion", files: new Map([["/main.mullion", one]]), marks: [] }), { today }).map(
      ({ code, message }) => `${code} ${message}`,
    );
  const plain = codes(text);
  expect(plain.length).toBeGreaterThan(5);
  expect(codes(text.replaceAll("\n", "\r\n"))).toEqual(plain);
  expect(codes(`\ufeff${text}`)).toEqual(plain);
});
