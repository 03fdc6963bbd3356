/** What one line of the text takes at the keypad: its exact keys and what must be seen, for hovers and inlay hints. */
import { cannotEncode, encode } from "../keypad/encode.ts";
import type { Force } from "../keypad/lengths.ts";
import type { Memory, Operation, Slot } from "../keypad/memory.ts";
import type { Model } from "../keypad/model.ts";
import { slotKey } from "../keypad/slot-key.ts";
import type { AllRelayPlace, Keypad, KeypadRelay, Placement, Site } from "../site/site.ts";
import type { Names } from "./names.ts";
import { namesOf } from "./names.ts";
import { refusalWords } from "./refusal.ts";
import { sentence } from "./sentence.ts";
import type { SheetGroup } from "./shape.ts";
import type { Show } from "./show.ts";
import { shownGroups } from "./show.ts";
import { visible } from "./visible.ts";

export interface PreviewOptions {
  readonly hideCodes: boolean;
  /** The installer code in digits; has no effect where codes are hidden. */
  readonly showInstaller?: boolean;
}

/** By the fitted record, or the factory memory where there is no record. */
export type FittedState = "fitted" | "to type" | "unknown";

export interface Preview {
  /** What is typed, in order; a pair has two. Empty where the model cannot type it or the text is half written. */
  readonly rows: readonly PreviewRow[];
  readonly state: FittedState;
  /** "Foot gate". */
  readonly door?: string;
  /** As typed. */
  readonly slot?: string;
}

export interface PreviewRow {
  readonly text: string;
  readonly keys: readonly SheetGroup[];
  readonly shows?: string;
  readonly refusal: string;
}

/** One entry of a relay. */
export function previewOf(site: Site, keypad: Keypad, placement: Placement, options: PreviewOptions): Preview | undefined {
  return previewer(site, keypad, options)?.placement(placement);
}

/** The same for many lines of one keypad: the site is read once. Undefined where the keypad has no model. */
export function previewer(site: Site, keypad: Keypad, options: PreviewOptions): Previewer | undefined {
  const { model } = keypad;
  if (!model) return undefined;
  const names = namesOf(site, keypad, model);
  const record = keypad.fitted ? keypad.fitted.memory : model.factory;
  const knows = keypad.fitted?.knows ?? "all";
  const show: Show = { hideCodes: options.hideCodes, showInstaller: options.showInstaller ?? false };
  const rows = (operations: readonly Operation[]) =>
    operations.flatMap(operation => rowOf(model, operation, forceOf(keypad, record), names, show));
  const state = (known: boolean | undefined): FittedState =>
    known === true ? "fitted" : known === undefined || knows === "nothing" ? "unknown" : "to type";
  /** Whether the record has the same; undefined where it does not say. */
  const same = <Value>(was: Value | "unknown" | undefined, wanted: Value): boolean | undefined => {
    if (was === "unknown" || !record) return undefined;
    return was === undefined && knows !== "all" ? undefined : was === wanted;
  };
  return {
    placement: placement => ({
      rows: rows(operationsOf(placement)),
      state: state(record && placementFitted(model, record, placement, knows === "all")),
      door: names.relay(placement.relay.set),
      ...(placement.slot === undefined ? {} : { slot: names.slot(placement.slot) }),
    }),
    allRelay: ({ number, held }) => {
      const code = held?.credential?.digits;
      const was = record?.allRelay.get(number === undefined ? "" : String(number));
      const slot = number === undefined ? {} : { slot: number };
      return {
        rows: code === undefined ? [] : rows([{ operation: "set all-relay", code, ...slot }]),
        state: state(was?.unknown ? undefined : same(was?.code, code)),
        ...(number === undefined ? {} : { slot: names.slot(number) }),
      };
    },
    installer: () => {
      const code = keypad.installer?.digits ?? keypad.installer?.held?.credential?.digits;
      return { rows: code === undefined ? [] : rows([{ operation: "set installer", code }]), state: state(same(record?.installer, code)) };
    },
    setting: (label, value) => ({
      rows: rows([{ operation: "set setting", label, value }]),
      state: state(same(record?.settings.get(label), value)),
    }),
    release: ({ set, release }) => ({
      rows: release === undefined ? [] : rows([{ operation: "set release", relay: set, release }]),
      state: state(same(record?.releases.get(set), release)),
      door: names.relay(set),
    }),
    codeLength: digits => ({ rows: rows([{ operation: "set length", digits }]), state: state(same(record?.codeLength, digits)) }),
  };
}

export interface Previewer {
  placement(placement: Placement): Preview;
  allRelay(place: AllRelayPlace): Preview;
  installer(): Preview;
  setting(label: string, value: number): Preview;
  release(relay: KeypadRelay): Preview;
  codeLength(digits: number): Preview;
}

/** What is typed for one entry of a relay: its code, its tag, or both. */
function operationsOf(placement: Placement): readonly Operation[] {
  const place = { relay: placement.relay.set, ...(placement.slot === undefined ? {} : { slot: placement.slot }) };
  return placement.held.flatMap(({ credential }): readonly Operation[] => {
    if (credential?.digits !== undefined) return [{ operation: "put code", ...place, code: credential.digits }];
    return credential?.tag === undefined ? [] : [{ operation: "put tag", ...place, tag: credential.tag }];
  });
}

function placementFitted(model: Model, record: Memory, placement: Placement, knowsAll: boolean): boolean | undefined {
  const { set } = placement.relay;
  let fitted: boolean | undefined = true;
  for (const { credential } of placement.held) {
    const content = credential?.kind === "code" ? { code: credential.digits } : { tag: credential?.tag };
    const slot = record.slots.get(slotKey(model, set, placement.slot, definedOnly(content)));
    if (slot?.unknown) return undefined;
    if (slot === undefined && !knowsAll) return undefined;
    if (slot === undefined || !holds(slot, set, definedOnly(content))) fitted = false;
  }
  return fitted;
}

function holds(slot: Slot, set: string, content: { readonly code?: string; readonly tag?: string }): boolean {
  if (slot.fires !== set) return false;
  return content.code === undefined ? content.tag !== undefined && slot.tag === content.tag : slot.code === content.code;
}

function definedOnly(content: { readonly code?: string | undefined; readonly tag?: string | undefined }): { code?: string; tag?: string } {
  return { ...(content.code === undefined ? {} : { code: content.code }), ...(content.tag === undefined ? {} : { tag: content.tag }) };
}

function forceOf(keypad: Keypad, record: Memory | undefined): Force {
  const installer = keypad.installer?.digits ?? keypad.installer?.held?.credential?.digits ?? record?.installer;
  const codeLength = keypad.codeLength ?? record?.codeLength;
  return { ...(installer === undefined ? {} : { installer }), ...(codeLength === undefined ? {} : { codeLength }) };
}

function rowOf(model: Model, operation: Operation, force: Force, names: Names, show: Show): readonly PreviewRow[] {
  const setting = operation.operation === "set setting" ? model.settings.get(operation.label) : undefined;
  const template = operation.operation === "set setting" ? setting : model.operations.get(operation.operation);
  if (!template || cannotEncode(model, operation, force) !== undefined) return [];
  return [
    {
      text: sentence(operation, names, model),
      keys: shownGroups(encode(model, operation, force), show),
      ...(template.shows === undefined ? {} : { shows: visible(template.shows) }),
      refusal: refusalWords(model),
    },
  ];
}
