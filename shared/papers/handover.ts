/** The handover of a site: what was installed and tried, who keeps the installer codes, and a page for each door with what is measured there. */
import { capital } from "../capital.ts";
import { cautionsOf } from "../doors/cautions.ts";
import type { DoorSum } from "../doors/door-sum.ts";
import { doorSum } from "../doors/door-sum.ts";
import { doorSumWords } from "../doors/sum-words.ts";
import { decides } from "../doors/words.ts";
import { trialsOf } from "../sheet/tries.ts";
import { visible } from "../sheet/visible.ts";
import type { Keypad, Site } from "../site/site.ts";
import type { Fact, Paper, PaperKind, PaperOptions, Part } from "./paper.ts";
import { statesOf } from "./places.ts";
import type { DoorRelay, DoorSaid } from "./words.ts";
import { callParts, doorSaid, doorsOf, releaseWords, says, siteWords } from "./words.ts";

export const handover: PaperKind = { name: "handover", make: (site, options) => [handoverOf(site, options)] };

function handoverOf(site: Site, { today, keypads = [...site.keypads.values()] }: PaperOptions): Paper {
  const facts: Fact[] = [
    ...(site.address === undefined ? [] : [["Address", visible(site.address)] as const]),
    ...(site.contact === undefined ? [] : [["Contact", visible(site.contact)] as const]),
  ];
  const notes = (site.node?.facts ?? []).flatMap(fact => (fact.kind === "note" && fact.text ? [visible(fact.text.text)] : []));
  const doors = [...doorsOf(site, keypads)];
  return {
    file: "handover",
    title: "Handover",
    site: siteWords(site),
    date: today,
    parts: [
      ...(facts.length === 0 ? [] : [{ is: "facts", facts } as const]),
      ...(notes.length === 0 ? [] : [{ is: "list", items: notes } as const]),
      { is: "heading", text: "Installed" },
      {
        is: "table",
        head: ["Keypad", "Model", "Doors", "Codes", "Tags", "Record"],
        rows: keypads.map(keypad => installedRow(site, keypad)),
      },
      { is: "heading", text: "Installer codes" },
      { is: "words", text: "None stands on this paper." },
      {
        is: "table",
        tick: true,
        head: ["Keypad", "In a sealed envelope, with", "Changed from the factory's, by"],
        rows: keypads.map(keypad => [visible(keypad.label), "", ""]),
      },
      { is: "caution", text: `Work on mains is for a licensed person. ${decides}` },
      ...callParts(site, "Questions and faults"),
      { is: "signatures", names: ["Handed over by", "Taken over by", "Date"] },
      ...keypads.flatMap(keypad => triedParts(site, keypad)),
      ...doors.flatMap(([label, relays]) => doorPage(site, label, relays)),
    ],
  };
}

function installedRow(site: Site, keypad: Keypad): readonly string[] {
  const states = statesOf(site, keypad);
  const slots = [...(states?.after.slots.values() ?? [])];
  const codes = slots.filter(slot => slot.code !== undefined).length + (states?.after.allRelay.size ?? 0);
  const doors = [...doorsOf(site, [keypad]).keys()].map(visible);
  const waiting = states ? states.places.filter(place => !place.same).length : 0;
  const record = keypad.fitted?.date ?? "none";
  return [
    `${visible(keypad.label)} (${keypad.id})`,
    keypad.model ? visible(keypad.model.label) : "not known",
    doors.join("; "),
    String(codes),
    String(slots.filter(slot => slot.tag !== undefined).length),
    waiting === 0 ? record : `${record}; ${waiting} waiting`,
  ];
}

/** Every code and tag that opens something, to be ticked when it has been tried. */
function triedParts(site: Site, keypad: Keypad): readonly Part[] {
  const states = statesOf(site, keypad);
  if (!states) return [];
  const { model, before, after, names } = states;
  const rows = trialsOf(site, keypad, { model, target: after }, names, [before])
    .filter(({ opensAfter }) => opensAfter.length > 0)
    .map(({ who, opensAfter }) => [who, `${names.doors(opensAfter)} ${opensAfter.length > 1 ? "open" : "opens"}`]);
  if (rows.length === 0) return [];
  return [
    { is: "heading", text: `Tried at ${visible(keypad.label)}` },
    { is: "table", tick: true, head: ["Keyed or presented", "What it does"], rows },
  ];
}

function doorPage(site: Site, label: string, relays: readonly DoorRelay[]): readonly Part[] {
  const door = doorSaid(site, label);
  const sum = doorSum(site, label);
  const facts: Fact[] = [
    ...relays.map(
      ({ keypad, relay }): Fact => [
        "Released by",
        `${visible(keypad.label)}, relay ${relay.set}${relay.noCodes ? ", by a button or a handset, no codes" : ""}`,
      ],
    ),
    ...relays.flatMap(({ keypad, relay }): readonly Fact[] => {
      const release = releaseWords(relay.release ?? statesOf(site, keypad)?.after.releases.get(relay.set));
      return release === undefined ? [] : [[relays.length > 1 ? `Stays open (${visible(keypad.label)})` : "Stays open", release]];
    }),
    ...door.facts.flatMap(({ kind, says }): readonly Fact[] => {
      const name = factNames.get(kind);
      return name === undefined ? [] : [[name, kind === "release-on-alarm" ? "cuts the power of the lock" : says || "yes"]];
    }),
    ...withoutPower(door),
    ...(sum?.fedBy ?? []).map((supply): Fact => ["Fed by", visible(supply.label)]),
  ];
  return [
    { is: "page" },
    { is: "heading", text: `Door: ${visible(label)}` },
    { is: "facts", facts },
    ...workedOut(sum),
    ...cautions(door, sum).map((text): Part => ({ is: "caution", text })),
    { is: "heading", text: "Measured and tried on site" },
    { is: "blanks", blanks: blanks(door) },
    {
      is: "list",
      tick: true,
      items: [
        "Opens to a good code and to nothing else",
        "Opens from inside without a code, a tag or a key",
        "Tried with the power off, from inside and from outside",
        ...(says(door, "release-on-alarm") ? ["Released when the fire alarm was tried, by whoever looks after the alarm"] : []),
        "Closes and latches by itself",
      ],
    },
    { is: "signatures", names: ["Measured by", "Signed", "Date"] },
  ];
}

const factNames: ReadonlyMap<string, string> = new Map([
  ["lock", "Lock"],
  ["contact", "Contact"],
  ["cable", "Cable"],
  ["exit", "Exit by"],
  ["route", "Route"],
  ["release-on-alarm", "Fire alarm"],
  ["note", "Note"],
]);

function withoutPower(door: DoorSaid): readonly Fact[] {
  if (says(door, "lock", "fail-safe")) return [["Without power", "unlocked"]];
  if (says(door, "lock", "fail-secure")) return [["Without power", "locked from outside"]];
  return says(door, "lock", "stays") ? [["Without power", "stays as it is"]] : [];
}

function blanks(door: DoorSaid): readonly { readonly label: string; readonly unit?: string }[] {
  return [
    ...(says(door, "lock") ? [] : [{ label: "Lock, as found" }]),
    { label: "Supply, on mains", unit: "V" },
    { label: "Supply, on battery", unit: "V" },
    { label: "At the lock, at rest", unit: "V" },
    { label: "At the lock, released", unit: "V" },
    { label: "Current of the lock", unit: "A" },
    { label: "Stays open for", unit: "s" },
    ...(withoutPower(door).length > 0 ? [] : [{ label: "Without power the door is" }]),
    ...(says(door, "route") ? [] : [{ label: "Escape route or fire door" }]),
  ];
}

/** What ought to be measured, by the text, and what that takes for granted. */
function workedOut(sum: DoorSum | undefined): readonly Part[] {
  if (!sum || (!sum.onMains && !sum.atBatteryEnd)) return [];
  const { lines, assumed } = doorSumWords(sum);
  return [
    { is: "heading", text: "Worked out from the text" },
    { is: "list", items: lines },
    { is: "words", text: `Assumed: ${assumed.join("; ")}.` },
  ];
}

/** The usual cautions, each where it belongs and once. */
function cautions(door: DoorSaid, sum: DoorSum | undefined): readonly string[] {
  // Who stands near a gate is told to stand clear, below.
  const found = sum ? cautionsOf(sum).filter(({ is }) => is !== "start near people") : [];
  const said = found.map(({ text }) => visible(`${capital(text)}.`));
  if (says(door, "route", "escape"))
    said.push(
      "Escape route: leaving must take no code, no tag and no power. That is the work of the door's own hardware, not of the keypad.",
    );
  if (says(door, "route", "fire door")) said.push("Fire door: it has to close and latch by itself. Ask before a lock on it is changed.");
  if (says(door, "lock", "start contact"))
    said.push("The keypad only asks it to move; the operator's own protective devices are to be tested by a competent person.");
  if (says(door, "near-people")) said.push("Moving parts within reach of whoever stands at the keypad: stand clear.");
  return said.map((text, index) => (index === said.length - 1 ? `${text} ${decides}` : text));
}
