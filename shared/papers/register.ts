/** The register of a site: which slot of which keypad holds whose code or tag, fitted on which date or waiting. No codes. */
import { visible } from "../sheet/visible.ts";
import type { Keypad, Site } from "../site/site.ts";
import type { Paper, PaperKind, PaperOptions, Part } from "./paper.ts";
import type { KeypadStates, PlaceState } from "./places.ts";
import { statesOf } from "./places.ts";
import { siteWords } from "./words.ts";

export const register: PaperKind = { name: "register", make: (site, options) => [registerOf(site, options)] };

function registerOf(site: Site, { today, keypads = [...site.keypads.values()] }: PaperOptions): Paper {
  return {
    file: "register",
    title: "Register",
    site: siteWords(site),
    date: today,
    parts: [
      { is: "words", text: "Who has a place in which keypad. It holds no codes." },
      ...keypads.flatMap(keypad => keypadParts(site, keypad)),
    ],
  };
}

function keypadParts(site: Site, keypad: Keypad): readonly Part[] {
  const heading: Part = { is: "heading", text: `${visible(keypad.label)} (${keypad.id})` };
  const states = statesOf(site, keypad);
  if (!states)
    return [heading, { is: "words", text: "Its model is not known, or the record is of another one: nothing can be said of it." }];
  const rows = states.places.flatMap(place => rowsOf(place, states));
  const table: Part = { is: "table", head: ["Door", "Slot", "Holder", "With", "Fitted"], rows };
  return [heading, { is: "words", text: recordWords(states) }, ...(rows.length === 0 ? [] : [table])];
}

function recordWords({ model, knows, date, places }: KeypadStates): string {
  const waiting = places.filter(place => !place.same).length;
  const left = waiting === 0 ? "Nothing is waiting." : `${waiting} ${waiting === 1 ? "place is" : "places are"} waiting for a visit.`;
  const beginning = `Model ${visible(model.label)}.`;
  switch (knows) {
    case "factory":
      return `${beginning} No record yet: it is taken to be as it left the factory. ${left}`;
    case "nothing":
      return `${beginning} Nobody can say what it holds. ${left}`;
    case "part":
      return `${beginning} Recorded ${date ?? ""}, as far as it is known: it may hold more than stands here. ${left}`;
    case "all":
      return `${beginning} Recorded ${date ?? ""}. ${left}`;
  }
}

/** One row for each code and tag of a place, and for what is there and has to go. */
function rowsOf(place: PlaceState, { date, knows }: KeypadStates): readonly (readonly string[])[] {
  const before = place.wasUnknown && knows !== "nothing" ? "what is there now is not known" : "";
  if (place.is.length === 0 && place.wasUnknown)
    return [[place.door, place.slot ?? "", "nobody can say", "", "what is there now is not known, waiting to be taken out"]];
  if (place.is.length === 0)
    return place.was.map(({ holder, what }) => [place.door, place.slot ?? "", holder, what, "fitted, waiting to be taken out"]);
  const now = place.was.length > 0 && !place.same ? `now ${place.was.map(({ words }) => words).join(" and ")}` : before;
  const state = place.same ? `fitted ${date ?? "in the factory"}` : ["waiting", now].filter(Boolean).join("; ");
  return place.is.map(({ holder, what }) => [place.door, place.slot ?? "", holder, what, state]);
}
