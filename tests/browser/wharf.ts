/** A short site with a record, for the pictures: a code that changes, one that is taken out, a tag, a release time. */

import { planFor } from "../../shared/plan/start.ts";
import type { Sheet } from "../../shared/sheet/shape.ts";
import { sheetOf } from "../../shared/sheet/sheet.ts";
import type { Site } from "../../shared/site/site.ts";
import { model, siteOf } from "../shared/sheet/wharf.ts";
import { mullion } from "../support/fixture.ts";

export const today = "2026-11-25";

const text = mullion`
  site "Tannery Wharf" { address "Slip Lane, Eastmere" contact "Wharf office, weekdays 9 to 5" }
  holder u1 "Unit 1, pottery" code 48291 tag 8061261 "blue fob"
  holder u2 "Unit 2, sail loft" code 55910
  holder u5 "Unit 5, Café Möwe" code 54118
  holder u12 "Unit 12, Ξύλο joinery" code 54035
  holder mgr "Wharf manager" code 91827
  holder firm "Our own codes" code gate 60441
  keypad gate "Lane gate" : dunlin {
    installer code firm.gate
    all-relay code mgr
    relay 1 "Foot gate" release 5s { 01 u1 02 u2 05 u5 12 u12 40 u1.tag }
    relay 2 "Vehicle gate" release 1s no codes
    relay 3 spare
  }
  door "Vehicle gate" {
    lock start contact
    near people
  }
  fitted gate 2026-11-20 {
    model dunlin
    installer code 60441
    all-relay code 91827
    relay 1 release 3s {
      01 code 48291
      02 code 30517
      09 code 87342
    }
    relay 2 release 1s { }
  }
`;

export function wharfSite(): Site {
  return siteOf(text + model);
}

export function wharfSheet(): Sheet {
  const site = wharfSite();
  const keypad = site.keypads.get("gate");
  const plan = keypad && planFor(site, keypad);
  if (!keypad || !plan || "cannot" in plan) throw new Error("the gate can be planned");
  return sheetOf(site, keypad, plan, { hideCodes: false, showInstaller: false, today });
}
