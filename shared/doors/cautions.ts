/** What has to be asked about a door before people depend on it: ways out, fire doors, magnets, gates. Facts of the trade, common practice, no source. */
import type { DoorFact, Span, SupplyDecl } from "../../grammar/tree.ts";
import type { FileId } from "../finding.ts";
import type { DoorSum } from "./door-sum.ts";
import { spanOf } from "./items.ts";
import { factOf, says } from "./resolve.ts";

export interface Caution extends Span {
  readonly is:
    | "exit by button"
    | "no exit"
    | "exit needs power"
    | "fire door unlatches"
    | "magnet without alarm"
    | "magnet fail-secure"
    | "battery holds"
    | "start near people";
  /** In words, without a full stop and without who decides. */
  readonly text: string;
  readonly battery?: Span & { readonly file: FileId; readonly supply: SupplyDecl };
}

/** Every caution about a door, in the order in which they matter. */
export function cautionsOf(door: DoorSum): readonly Caution[] {
  const { node, label, lock } = door;
  const place = (kind: DoorFact["kind"]): Span => spanOf(factOf(node, kind) ?? node.keyword);
  const cautions: Caution[] = [];

  if (says(node, "route", "escape")) {
    // A lever or a bar draws the latch that a strike holds; it does not touch a magnet or a bolt elsewhere on the leaf.
    const isApart = lock.kind === "magnet" || lock.kind === "bolt";
    if (says(node, "exit", "button"))
      cautions.push({
        ...place("exit"),
        is: "exit by button",
        text: `${label} is on an escape route and people leave by a button, which needs its wiring and its power`,
      });
    else if (says(node, "exit", "none"))
      cautions.push({ ...place("exit"), is: "no exit", text: `${label} is on an escape route and nothing on its inside opens it` });
    else if (isApart)
      cautions.push({
        ...place("lock"),
        is: "exit needs power",
        text: `${label} is on an escape route and a ${lock.kind} holds it whatever lever or bar is on it: leaving depends on its power`,
      });
  }
  if (says(node, "route", "fire door") && lock.kind === "strike" && lock.withoutPower === "fail-safe")
    cautions.push({
      ...place("lock"),
      is: "fire door unlatches",
      text: `${label} is a fire door with a fail-safe strike: when the power fails it no longer latches, and a fire door has to`,
    });
  if (lock.kind === "magnet") {
    if (!says(node, "release-on-alarm", "on alarm"))
      cautions.push({
        ...place("lock"),
        is: "magnet without alarm",
        text: `the magnet of ${label} holds on in a fire: nothing is said to cut its power (\`release on alarm\`)`,
      });
    if (lock.withoutPower !== "fail-safe")
      cautions.push({
        ...place("lock"),
        is: "magnet fail-secure",
        text: `${label} has a magnet that is called ${lock.withoutPower === "stays" ? "one that stays as it is" : "fail-secure"}: without power a magnet holds nothing`,
      });
  }
  const backed = door.fedBy.find(supply => supply.battery);
  const isHeld = lock.kind === "magnet" || lock.withoutPower === "fail-safe";
  if (backed?.battery && isHeld)
    cautions.push({
      ...place("lock"),
      is: "battery holds",
      text: `${label} has a fail-safe lock, and the battery of ${backed.label} keeps it held when the mains fails`,
      battery: { ...spanOf(backed.battery.fact), file: backed.file, supply: backed.node },
    });
  if (lock.kind === "start contact" && factOf(node, "near-people"))
    cautions.push({
      ...place("near-people"),
      is: "start near people",
      text: `the relay of ${label} starts something that moves within reach of whoever stands at the keypad`,
    });
  return cautions;
}
