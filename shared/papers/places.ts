/** The places of a keypad's memory in two states, in words and without codes: what each held and what it holds. */
import type { AllRelay, Memory, Slot } from "../keypad/memory.ts";
import type { Model } from "../keypad/model.ts";
import { startOf } from "../plan/start.ts";
import { wantedMemory } from "../plan/wanted.ts";
import type { Names } from "../sheet/names.ts";
import { credentialWords, namesOf, tagWords } from "../sheet/names.ts";
import { labelled, visible } from "../sheet/visible.ts";
import type { Credential, Day, Keypad, Site } from "../site/site.ts";

export interface PlaceState {
  /** "Foot gate", "every door". */
  readonly door: string;
  /** As typed; absent where places have no number. */
  readonly slot?: string;
  /** "slot 02 of Foot gate", "the all-relay code". */
  readonly place: string;
  readonly allRelay: boolean;
  /** Empty: nothing is there. */
  readonly was: readonly Content[];
  /** Nobody can say what was there. */
  readonly wasUnknown: boolean;
  readonly is: readonly Content[];
  /** The same before and after, as far as anyone can say. */
  readonly same: boolean;
}

export interface Content {
  /** "Unit 2's code", "another code", "tag 8061261". */
  readonly words: string;
  /** "Unit 2", "nobody in the text". */
  readonly holder: string;
  /** `code`, `code "yard"`, `tag 8061261 (blue fob)`. */
  readonly what: string;
}

export interface KeypadStates {
  readonly keypad: Keypad;
  readonly model: Model;
  readonly before: Memory;
  readonly after: Memory;
  readonly names: Names;
  readonly places: readonly PlaceState[];
  /** Of the record that `before` is read from; absent without one. */
  readonly date?: Day;
  readonly knows: "all" | "part" | "nothing" | "factory";
}

/** What is fitted and what the text wants; undefined where the keypad's model is not known or the record is of another one. */
export function statesOf(site: Site, keypad: Keypad): KeypadStates | undefined {
  const { model } = keypad;
  if (!model) return undefined;
  const started = startOf(model, keypad, "fitted");
  if ("cannot" in started) return undefined;
  return between(site, keypad, model, started.before, wantedMemory(keypad, started.before));
}

/** What was fitted by an earlier record, and what is fitted now. */
export function changeOf(site: Site, keypad: Keypad, earlier: Keypad | undefined): KeypadStates | undefined {
  const { model } = keypad;
  if (!model) return undefined;
  const then = startOf(model, earlier ?? keypad, earlier ? "fitted" : "factory");
  const now = startOf(model, keypad, "fitted");
  if ("cannot" in then || "cannot" in now) return undefined;
  return between(site, keypad, model, then.before, now.before, earlier);
}

function between(
  site: Site,
  keypad: Keypad,
  model: Model,
  before: Memory,
  after: Memory,
  recorded: Keypad | undefined = keypad,
): KeypadStates {
  const names = namesOf(site, keypad, model, before, after);
  const fitted = recorded?.fitted;
  const knows = fitted?.knows ?? "factory";
  return {
    keypad,
    model,
    before,
    after,
    names,
    places: [...allRelayStates(names, before, after), ...slotStates(model, names, before, after, knows === "all")],
    ...(fitted?.date === undefined ? {} : { date: fitted.date }),
    knows,
  };
}

/** @param told the record names every place of which nobody knows what it holds, so that they are few */
function slotStates(model: Model, names: Names, before: Memory, after: Memory, told: boolean): readonly PlaceState[] {
  const keys = new Set([...after.slots.keys(), ...before.slots.keys()]);
  return [...keys].flatMap(key => {
    const was = before.slots.get(key);
    const is = after.slots.get(key);
    const slot = is ?? was;
    // Places of which nobody knows anything, and that nobody wants, may be the whole memory.
    if (!slot || (was?.unknown && !is && !told) || (is?.unknown && !was)) return [];
    const door = slot.fires === undefined ? "the keypad" : names.relay(slot.fires);
    const number = slot.number === undefined ? undefined : names.slot(slot.number);
    return [
      {
        door,
        ...(number === undefined ? {} : { slot: number }),
        place: placeWords(model, door, number),
        allRelay: false,
        was: contents(was, names),
        wasUnknown: was?.unknown ?? false,
        is: contents(is, names),
        same: sameSlot(was, is),
      },
    ];
  });
}

function placeWords(model: Model, door: string, number: string | undefined): string {
  if (number !== undefined) return model.slots.addressing === "shared" ? `slot ${number}, for ${door}` : `slot ${number} of ${door}`;
  return model.slots.addressing === "one per relay" ? `the place of ${door}` : `the memory, for ${door}`;
}

function allRelayStates(names: Names, before: Memory, after: Memory): readonly PlaceState[] {
  const keys = new Set([...after.allRelay.keys(), ...before.allRelay.keys()]);
  return [...keys].flatMap(key => {
    const was = before.allRelay.get(key);
    const is = after.allRelay.get(key);
    if ((was?.unknown && !is) || (is?.unknown && !was)) return [];
    const number = (is ?? was)?.number;
    const slot = number === undefined ? undefined : names.slot(number);
    return [
      {
        door: "every door",
        ...(slot === undefined ? {} : { slot }),
        place: slot === undefined ? "the all-relay code" : `all-relay code ${slot}`,
        allRelay: true,
        was: allRelayContents(was, names),
        wasUnknown: was?.unknown ?? false,
        is: allRelayContents(is, names),
        same: was !== undefined && is !== undefined && !was.unknown && !is.unknown && was.code === is.code,
      },
    ];
  });
}

function contents(slot: Slot | undefined, names: Names): readonly Content[] {
  if (!slot || slot.unknown) return [];
  const found: Content[] = [];
  if (slot.code !== undefined) found.push(codeContent(names.code(slot.code, slot.fires, slot.number)));
  if (slot.tag !== undefined) {
    const credential = names.tag(slot.tag, slot.fires, slot.number);
    found.push(
      credential
        ? { words: credentialWords(credential), holder: labelled(credential.holder.label), what: tagWhat(credential) }
        : { words: `the ${tagWords(slot.tag)}`, holder: nobody, what: tagWords(slot.tag) },
    );
  }
  return found;
}

function allRelayContents(place: AllRelay | undefined, names: Names): readonly Content[] {
  return place?.code === undefined ? [] : [codeContent(names.code(place.code, undefined, place.number))];
}

const nobody = "nobody in the text";

function codeContent(credential: Credential | undefined): Content {
  if (!credential) return { words: "another code", holder: nobody, what: "code" };
  const what = credential.name === undefined ? "code" : `code "${credential.name}"`;
  return { words: credentialWords(credential), holder: labelled(credential.holder.label), what };
}

/** With what the tag is known by in the hand: its number, its mark. */
function tagWhat({ name, tag, mark, lost }: Credential): string {
  const number = tag !== undefined && /^[0-9]+$/.test(tag) ? ` ${tag}` : "";
  return `tag${name === undefined ? "" : ` "${name}"`}${number}${mark === undefined ? "" : ` (${visible(mark)})`}${lost ? ", lost" : ""}`;
}

function sameSlot(was: Slot | undefined, is: Slot | undefined): boolean {
  if (!was || !is || was.unknown || is.unknown) return false;
  return was.code === is.code && was.tag === is.tag && was.fires === is.fires;
}
