/** An operation of a model with real values in its fields, as a hover shows it: what is typed for the first relay and slot. */
import type { OperationName } from "../../grammar/tree.ts";
import { cannotEncode, encode, encodeEnter, encodeLeave, encodeOpen } from "../keypad/encode.ts";
import { codeLengthsInForce } from "../keypad/lengths.ts";
import type { KeyGroup, Operation } from "../keypad/memory.ts";
import type { Model, SlotKind } from "../keypad/model.ts";
import type { SheetGroup } from "./shape.ts";
import { shownGroups } from "./show.ts";

/** Digits that an example takes its codes from; no code of any site. */
const sampleDigits = "4829173650482917";

/** The groups of the example; undefined where the model lacks the operation. No code in it is anyone's: it may be shown everywhere. */
export function exampleOf(model: Model, operation: OperationName): readonly SheetGroup[] | undefined {
  if (!model.operations.has(operation)) return undefined;
  const groups = groupsOf(model, operation);
  return groups && shownGroups(groups, { hideCodes: false, showInstaller: false });
}

export function exampleOfSetting(model: Model, label: string): readonly SheetGroup[] | undefined {
  const setting = model.settings.get(label);
  if (!setting) return undefined;
  const operation = { operation: "set setting", label, value: setting.max } as const;
  if (cannotEncode(model, operation, forceOf(model)) !== undefined) return undefined;
  return shownGroups(encode(model, operation, forceOf(model)), { hideCodes: false, showInstaller: false });
}

function groupsOf(model: Model, operation: OperationName): readonly KeyGroup[] | undefined {
  const code = sampleDigits.slice(0, codeLengthsInForce(model, forceOf(model))[0]);
  const tag = String(8061261 % 2 ** Math.min(model.tagBits, 32));
  switch (operation) {
    case "enter":
      return encodeEnter(model, forceOf(model).installer);
    case "leave":
      return encodeLeave(model, forceOf(model));
    case "open code":
    case "open all-relay":
    case "open tag":
    case "open both":
      return encodeOpen(model, operation, { ...relayOf(model), code, tag });
    default: {
      const example = operationOf(model, operation, code, tag);
      if (!example || cannotEncode(model, example, forceOf(model)) !== undefined) return undefined;
      return encode(model, example, forceOf(model));
    }
  }
}

function operationOf(
  model: Model,
  operation: Exclude<OperationName, "enter" | "leave" | `open ${string}`>,
  code: string,
  tag: string,
): Operation | undefined {
  const place = (kind: SlotKind) => ({ ...relayOf(model), ...slotOf(model, kind) });
  const [relay] = model.relays.keys();
  switch (operation) {
    case "put code":
      return { operation, ...place("codes"), code };
    case "put tag":
      return { operation, ...place("tags"), tag };
    case "clear slot":
      return { operation, ...place("codes") };
    case "clear code":
      return { operation, ...relayOf(model), code };
    case "clear tag":
      return { operation, ...relayOf(model), tag };
    case "set installer":
      return { operation, code: sampleDigits.slice(0, model.installerLengths[0]) };
    case "set all-relay":
      return { operation, ...allRelaySlot(model), code };
    case "clear all-relay":
      return { operation, ...allRelaySlot(model), code };
    case "set release":
      return relay === undefined
        ? undefined
        : { operation, relay, release: Math.max(model.release?.min ?? 1, Math.min(5, model.release?.max ?? 5)) };
    case "set length":
      return { operation, digits: model.codeLengths[0] ?? 4 };
    case "clear all":
      return { operation };
  }
}

function forceOf(model: Model): { readonly installer: string; readonly codeLength?: number } {
  const installer = model.factory.installer ?? sampleDigits.slice(0, model.installerLengths[0]);
  return { installer, ...(model.factory.codeLength === undefined ? {} : { codeLength: model.factory.codeLength }) };
}

function relayOf(model: Model): { readonly relay?: string } {
  const [relay] = model.relays.keys();
  return relay === undefined ? {} : { relay };
}

function slotOf(model: Model, kind: SlotKind): { readonly slot?: number } {
  const band = model.slots.bands.find(({ kept }) => kept === undefined || kept === kind);
  return band === undefined ? {} : { slot: band.from };
}

function allRelaySlot(model: Model): { readonly slot?: number } {
  const band = model.slots.bands.find(({ kept }) => kept === "all-relay");
  return band === undefined ? {} : { slot: band.from };
}
