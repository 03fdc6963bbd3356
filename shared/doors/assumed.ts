/** What the sum of a door takes for granted where the text says nothing, and what it would have to say for the rest of the sum. */
import type { DoorDecl } from "../../grammar/tree.ts";
import type { DoorSum } from "./door-sum.ts";
import { cellVolts, usualTolerance } from "./limits.ts";
import { cableOf, lockOf } from "./wiring.ts";

export type Sum = Omit<DoorSum, "assumed" | "missing">;

/** Of what goes through a contact, not of the volts at the lock. */
export const contactAssumption = "the contact's rating holds for the lock's kind of current";

/** In the fewest words, without a full stop: they stand in messages, one behind the other. */
export function assumedOf(sum: Sum): readonly string[] {
  const { lock, limits, cable, fedBy, onMains } = sum;
  const battery = fedBy[0]?.battery;
  const assumed: string[] = [];
  if (limits && lockOf(sum.node).said?.tolerance === undefined) assumed.push(`${usualTolerance} % either way of the rated voltage`);
  if (onMains && cable) {
    const said = cableOf(sum.node).said;
    if (lock.load === "constant") assumed.push("the same current at any voltage");
    if (cable.awg !== undefined) assumed.push("solid copper (stranded resists about 2 % more)");
    else assumed.push(said?.class === undefined ? "copper of class 1 or 2" : `copper of class ${cable.class}`);
    if (said?.celsius === undefined) assumed.push("20 °C");
    assumed.push("nothing else on the cable");
    if (lock.current === "AC") assumed.push("an a.c. supply and only the resistance of the conductors");
  }
  if (sum.atBatteryEnd && battery?.endVolts === undefined)
    assumed.push(`${cellVolts.discharged} V a cell of ${cellVolts.rated} V at the end of the battery`);
  if (onMains) assumed.push("a supply that keeps its voltage under load");
  if (sum.contacts.some(contact => contact.rated && contact.amps !== undefined)) assumed.push(contactAssumption);
  return assumed;
}

export function missingOf(sum: Sum, door: DoorDecl): readonly string[] {
  const { lock, cable, fedBy, wrongCurrent } = sum;
  // A start contact takes no power of ours.
  if (lock.kind === "start contact") return [];
  const missing: string[] = [];
  if (lock.kind === undefined) missing.push("the kind of lock");
  if (lock.ratedVolts === undefined) missing.push("the lock's voltage");
  if (lock.ratedAmps === undefined) missing.push("the lock's current");
  if (cable === undefined) missing.push(cableOf(door).said === undefined ? "the cable" : "a length and a cross-section of the cable");
  const supply = fedBy[0];
  if (supply === undefined) missing.push("the supply that feeds the door");
  else if (supply.volts === undefined) missing.push(`the voltage of ${supply.label}`);
  if (wrongCurrent) missing.push(`a supply of ${lock.current === "AC" ? "a.c." : "d.c."}, which the lock asks for`);
  return missing;
}
