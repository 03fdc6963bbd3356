/** A small sheet made by hand, for the formats alone: what the planner and the keypad say of it is not under test here. */
import type { Sheet, SheetEntry } from "../../../shared/sheet/shape.ts";

export const entry: SheetEntry = {
  n: 1,
  operation: "put code",
  keys: [
    { text: "7", is: "keys" },
    { text: "4", is: "relay" },
    { text: "02", is: "slot" },
    { text: "00421", is: "code" },
    { text: "OK", is: "keys" },
  ],
  text: "Unit 2's code into slot 02 of Foot gate",
  relay: "1",
  relayLabel: "Foot gate",
  slot: "02",
  holder: "u2",
  credential: "u2",
  shows: "one beep",
  refusal: "three short beeps; C gets out",
  repeatable: true,
  skippable: true,
  needs: [],
  neededBy: [],
};

export const sheet: Sheet = {
  number: "7K3-Q9M",
  site: "Tannery Wharf",
  keypad: "gate",
  label: "Lane gate",
  model: "dunlin-3",
  modelLabel: "Three-relay keypad",
  from: "2026-11-20",
  start: { from: "fitted", date: "2026-11-20", knows: "all" },
  startWords: "what was fitted on 2026-11-20",
  date: "2026-11-25",
  codesHidden: false,
  before: [{ kind: "installer", text: "Have the installer code in hand." }],
  sessions: [
    {
      number: 1,
      enter: [
        { text: "OK", is: "keys" },
        { text: "[installer code]", is: "installer" },
        { text: "OK", is: "keys" },
      ],
      enterShows: "lamp steady",
      entries: [entry],
      leave: [{ text: "OK", is: "keys" }],
      leaveShows: "lamp off",
    },
  ],
  tries: [
    { who: "Unit 2's code", keys: [{ text: "00421", is: "code" }], opens: ["1"], expect: "Foot gate opens", kind: "new", seconds: 5 },
  ],
  paperTries: [
    { who: "Unit 2's code", keys: [{ text: "00421", is: "code" }], opens: ["1"], expect: "Foot gate opens", kind: "new", seconds: 5 },
  ],
  triesLeftOut: 0,
  blanks: [
    {
      operation: "put code",
      text: "A code",
      parts: [{ keys: "7" }, { gap: "relay", width: 2 }, { gap: "code", width: 5 }],
      shows: "one beep",
    },
  ],
  relayKeys: ["Foot gate 4"],
  counts: { entries: 1, keys: 18 },
  seconds: 30,
  minutes: 1,
  proof: { reachesTarget: true, safeAtEveryEntry: true },
};

/** The same with another label in every place where the text's words stand. */
export function labelledWith(words: string): Sheet {
  return {
    ...sheet,
    site: words,
    label: words,
    modelLabel: words,
    before: [{ kind: "reset", text: words }],
    sessions: sheet.sessions.map(session => ({
      ...session,
      enterShows: words,
      entries: [{ ...entry, text: `${words}'s code into slot 02 of ${words}`, relayLabel: words, shows: words, refusal: words }],
    })),
    paperTries: sheet.paperTries.map(one => ({ ...one, who: words, expect: `${words} opens` })),
    tries: sheet.tries.map(one => ({ ...one, who: words, expect: `${words} opens` })),
    relayKeys: [`${words} 4`],
  };
}
