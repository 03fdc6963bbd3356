/** The keys of one entry, cut into its fields: which operation is meant and with what. */
import type { Alternative, FieldAt } from "./alternatives.ts";
import type { Act, Digits, Operation, TagId } from "./memory.ts";
import type { Model } from "./model.ts";
import { numbersAllRelay, soleRelay } from "./slot-key.ts";

/** `differ`: a value that stands twice was typed in two ways, in which case the first counts for the words about it. */
export interface Understood {
  readonly operation: Operation | { readonly operation: "enter" | "leave" };
  /** The installer code as typed, where the entry has one. */
  readonly installer?: Digits;
  readonly differ: boolean;
  /** A tag's number with more bits than the keypad's tags have. */
  readonly tagTooLarge: boolean;
}

/** A tag presented without saying which one. */
const namelessTag: TagId = '"tag"';

/** Reads the fields of a complete entry; `acts` are its presses and hand actions, one for each symbol. */
export function understand(model: Model, alternative: Alternative, acts: readonly Act[]): Understood {
  const read = new Map<string, string>();
  let differ = false;
  const note = (name: string, value: string) => {
    const before = read.get(name);
    if (before === undefined) read.set(name, value);
    else if (before !== value) differ = true;
  };
  let facility: string | undefined;
  for (const field of alternative.fields) {
    const typed = typedIn(field, acts);
    if (field.field === "facility") facility = typed;
    else if (field.field === "presented") note("tag", tagOf(acts[field.from]));
    else if (field.field === "tag") note("tag", facility === undefined ? plainNumber(typed) : joined(facility, typed));
    else if (field.field === "seconds") note("seconds", typed === model.release?.toggle ? "toggle" : plainNumber(typed));
    else if (field.field === "code" || field.field === "installer") note(field.field, typed);
    else note(field.field, plainNumber(typed));
    if (field.field === "tag") facility = undefined;
  }
  const installer = read.get("installer");
  const tag = read.get("tag");
  return {
    operation: operationOf(model, alternative, read),
    ...(installer === undefined ? {} : { installer }),
    differ,
    tagTooLarge: tag !== undefined && (tag === outOfRange || (/^[0-9]+$/.test(tag) && BigInt(tag) >> BigInt(model.tagBits) > 0n)),
  };
}

function typedIn(field: FieldAt, acts: readonly Act[]): string {
  let typed = "";
  for (let i = field.from; i < field.to; i++) {
    const act = acts[i];
    if (act && "press" in act) typed += act.press;
  }
  return typed;
}

function tagOf(act: Act | undefined): TagId {
  return act && "hand" in act && act.tag !== undefined ? act.tag : namelessTag;
}

function plainNumber(digits: string): string {
  return digits.replace(/^0+(?=[0-9])/, "");
}

/** A number behind the comma with more than 16 bits: no tag has it. */
const outOfRange = "out of range";

function joined(facility: string, number: string): TagId {
  const low = BigInt(number);
  return low > 0xffffn ? outOfRange : ((BigInt(facility) << 16n) | low).toString();
}

function operationOf(model: Model, alternative: Alternative, read: ReadonlyMap<string, string>): Understood["operation"] {
  const { operation, label } = alternative.reading;
  const relay = alternative.relay === undefined ? {} : { relay: alternative.relay };
  const code = read.get("code") ?? "";
  const tag = read.get("tag") ?? namelessTag;
  const slot = read.has("slot") ? { slot: Number(read.get("slot")) } : {};
  switch (operation) {
    case "put code":
      return { operation, ...relay, ...slot, code };
    case "put tag":
      return { operation, ...relay, ...slot, tag };
    case "clear slot":
      return { operation, ...relay, ...slot };
    case "clear code":
      return { operation, ...relay, code };
    case "clear tag":
      return { operation, ...relay, tag };
    case "set installer":
      return { operation, code };
    case "set all-relay":
      return { operation, ...slot, code };
    case "clear all-relay":
      return { operation, ...(numbersAllRelay(model) ? slot : {}), ...(read.has("code") ? { code } : {}) };
    case "set release": {
      const seconds = read.get("seconds");
      return { operation, relay: alternative.relay ?? soleRelay(model) ?? "", release: seconds === "toggle" ? seconds : Number(seconds) };
    }
    case "set length":
      return { operation, digits: Number(read.get("digits")) };
    case "set setting":
      return { operation, label: label ?? "", value: Number(read.get("value")) };
    case "clear all":
      return { operation };
    default:
      return { operation: operation === "enter" ? "enter" : "leave" };
  }
}
