/** Words that messages share: whose a code or a tag is, and where it is. Never the code. */
import type { AllRelayPlace, Credential, HeldUse, Holder, Keypad, KeypadRelay, Placement } from "../site/site.ts";

/** The holder of what stands in a place, or of an all-relay code, by label. */
export function whose(place: Placement | AllRelayPlace): string {
  const use: HeldUse | undefined = "relay" in place ? place.held[0] : place.held;
  return use?.holder?.label ?? use?.node.holder.text ?? "another entry";
}

/** `Unit 3's code`, `Unit 3's tag bike`. */
export function credentialWords(credential: Credential): string {
  return `${possessive(credential.holder)} ${credential.kind}${credential.name === undefined ? "" : ` ${credential.name}`}`;
}

export function possessive(holder: Holder): string {
  return `${holder.label}${holder.label.endsWith("s") ? "'" : "'s"}`;
}

export function relayWords(relay: KeypadRelay): string {
  return relay.label ?? `relay ${relay.set}`;
}

/** `slot 04 of Foot gate`; `Foot gate` where places have no number. */
export function placeWords(placement: Placement): string {
  const where = relayWords(placement.relay);
  return placement.node.slot ? `slot ${placement.node.slot.text} of ${where}` : where;
}

/** `5 digits`, `1 digit`. */
export function digitsWords(count: number): string {
  return count === 1 ? "1 digit" : `${count} digits`;
}

/** `5`, `5 or 7`, `4 to 8`: lengths ascending. */
export function lengthsWords(lengths: readonly number[]): string {
  const [first, last] = [lengths[0] ?? 0, lengths.at(-1) ?? 0];
  if (lengths.length > 2 && last - first === lengths.length - 1) return `${first} to ${last}`;
  return lengths.length < 2 ? String(first) : `${lengths.slice(0, -1).join(", ")} or ${last}`;
}

export function keypadWords(keypad: Keypad): string {
  return keypad.label;
}
