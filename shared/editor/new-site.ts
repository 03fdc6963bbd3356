/** The files of a new site: one keypad with one holder, and a model to be replaced from the keypad's manual. */
import type { RandomBytes } from "../codes/draw.ts";
import { drawCode } from "../codes/draw.ts";
import { placesApart } from "../codes/near.ts";
import { weakness } from "../codes/weak.ts";
import { must } from "../must.ts";
import { quoted } from "../quoted.ts";

export interface NewFile {
  /** Below the folder of the site, with forward slashes. */
  readonly name: string;
  readonly content: string;
}

/** @param name the site's name as it shall stand in the text; the codes are drawn, so that no two new sites share one */
export function newSite(name: string, random: RandomBytes): readonly NewFile[] {
  const taken = new Set<string>();
  const draw = (): string => {
    const drawn = drawCode(
      5,
      [
        { name: "taken", refuses: code => [...taken].some(other => placesApart(code, other) < 2) },
        { name: "weak", refuses: code => weakness(code) !== undefined },
      ],
      random,
    );
    must("code" in drawn, "a few codes of five digits can be drawn");
    taken.add(drawn.code);
    return drawn.code;
  };
  const [installer, factory, tenant] = [draw(), draw(), draw()];
  const label = quoted(name.replace(/[\r\n]+/g, " "));
  const site = `use "models/first-keypad.mullion"

site ${label} {
  address ""
  contact ""
}

// Whoever is given a code or a tag: a flat, a firm, a cleaner.
holder u1 "Unit 1" code ${tenant}
holder firm "Our own codes" code gate ${installer}

keypad gate "Gate" : first-keypad {
  installer code firm.gate

  relay 1 "Gate" release 5s {
    01 u1
  }
}
`;
  const model = `// Made up: put in what the manual of your own keypad says.
model first-keypad "One relay, numbered slots" {
  relays         1 = 1
  slots          01..50 per relay
  codes          5 digits
  rewrite        replaces
  twins          refused
  release        1s..99s
  settle         10s
  lapse          30s
  lockout        5 tries 60s
  refused        shows "three short beeps"
  cancel         #
  enter          * {installer} #               shows "lamp steady"
  leave          * *                           shows "lamp off"
  put code       1 {slot} {code} #             shows "one beep"
  clear slot     2 {slot} #                    shows "one beep"
  set installer  3 {code} {code} #             shows "two beeps"
  set release    4 {seconds:2} #               shows "one beep"
  open code      {code}
  factory {
    installer code ${factory}
  }
}
`;
  return [
    { name: `${fileNameOf(name)}.mullion`, content: site },
    { name: "models/first-keypad.mullion", content: model },
  ];
}

/** Lower-case words joined by hyphens; letters of every script are kept, what a file name cannot have is not. */
function fileNameOf(name: string): string {
  const words = name.toLowerCase().match(/[\p{L}\p{N}]+/gu) ?? [];
  return words.join("-").slice(0, 60) || "site";
}
