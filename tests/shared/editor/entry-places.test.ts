/** From an entry of a sheet to the words of the text that it comes from. */
import { expect, test } from "vitest";
import { entryPlaces } from "../../../shared/editor/entry-places.ts";
import { planFor } from "../../../shared/plan/start.ts";
import { sheetOf } from "../../../shared/sheet/sheet.ts";
import { mullion } from "../../support/fixture.ts";
import { model, siteOf } from "../sheet/wharf.ts";

const text = mullion`
  site "Tannery Wharf"
  holder u1 "Unit 1" code 48291 tag 8061261
  holder u2 "Unit 2" code 55910
  holder mgr "Wharf manager" code 91827
  keypad gate "Lane gate" : dunlin {
    installer code 60441
    all-relay code mgr
    setting "key light" 2
    relay 1 "Foot gate" release 5s {
      01 u1
      02 u2
    }
    relay 2 "Vehicle gate" release 1s {
      02 u1.tag
    }
    relay 3 spare
  }
  fitted gate 2026-11-20 {
    model dunlin
    installer code 24680
    setting "key light" 1
    relay 1 release 3s {
      02 code 11111
      09 code 87342
    }
    relay 2 release 2s { }
  }
`;

test("every entry leads to its own words; what the text no longer has leads to the keypad", () => {
  const site = siteOf(text + model);
  const keypad = site.keypads.get("gate");
  const plan = keypad && planFor(site, keypad);
  if (!keypad || !plan || "cannot" in plan) throw new Error("the gate can be planned");
  const places = entryPlaces(keypad, plan);
  const sheet = sheetOf(site, keypad, plan, { hideCodes: true, showInstaller: false, today: "2026-11-25" });
  const source = site.files[0]?.text ?? "";
  const found = sheet.sessions.flatMap(({ entries }) =>
    entries.map(entry => {
      const place = places.get(entry.n);
      return `${entry.text}: ${place ? source.slice(place.start, place.end) : "nowhere"}`;
    }),
  );
  expect(found.sort()).toEqual([
    'Empty slot 09 of Foot gate (a code): "Lane gate"',
    "New installer code: installer code 60441",
    "Release time of Foot gate: 5 s: release 5s",
    "Release time of Vehicle gate: 1 s: release 1s",
    'Setting "key light": 2: setting "key light" 2',
    "Unit 1's code into slot 01 of Foot gate: 01 u1",
    "Unit 1's tag into slot 02 of Vehicle gate: 02 u1.tag",
    "Unit 2's code into slot 02 of Foot gate: 02 u2",
    "Wharf manager's code as all-relay code: all-relay code mgr",
  ]);
});
