/** The last check of a sheet: the keys as printed, read back and typed on the simulated keypad, arrive where the plan says. */
import { parseKeys } from "../../grammar/parse.ts";
import type { Act, KeyGroup, Memory } from "../keypad/memory.ts";
import { sameMemory } from "../keypad/memory-equal.ts";
import { replay } from "../keypad/replay.ts";
import { must } from "../must.ts";
import type { Plan, PlanSession } from "../plan/plan.ts";
import type { Show } from "./show.ts";
import { shownGroup, shownGroups } from "./show.ts";

/** Printed for the proof only: everything shown. The same groups in the same order as on any other sheet of the plan. */
const everything: Show = { hideCodes: false, showInstaller: true };

/**
 * Replays the printed keys of every session, entry by entry.
 *
 * @throws BrokenInvariant with the number of the first entry that is not taken, or that the keypad reads as something else.
 */
export function proveSheet(plan: Plan): Plan["proof"] {
  const hands = handsOf(plan);
  let memory: Memory = plan.before;
  for (const stretch of stretchesOf(plan)) memory = typed(plan, stretch, hands, memory);
  must(sameMemory(memory, plan.target, plan.model), "the printed keys of a sheet replay to what the text wants; the last entry");
  return plan.proof;
}

/** Sessions up to one that is left by waiting: waiting is nothing that is typed, so what follows is replayed on its own. */
function stretchesOf(plan: Plan): readonly (readonly PlanSession[])[] {
  const stretches: PlanSession[][] = [[]];
  for (const session of plan.sessions) {
    stretches.at(-1)?.push(session);
    if (session.leave.length === 0 && plan.model.session === "many entries") stretches.push([]);
  }
  return stretches;
}

/** What the keypad holds after these sessions; each step must be taken, and be what the plan says at its place. */
function typed(plan: Plan, sessions: readonly PlanSession[], hands: Hands, memory: Memory): Memory {
  const acts: Act[] = [];
  const expected: { readonly operation: string; readonly entryNumber: number }[] = [];
  let entryNumber = sessions[0]?.entries[0]?.n ?? 1;
  const type = (groups: readonly KeyGroup[], operation: string) => {
    if (groups.length === 0) return;
    for (const act of readBack(groups, hands, entryNumber)) acts.push(act);
    expected.push({ operation, entryNumber });
  };
  for (const session of sessions) {
    type(session.enter, "enter");
    for (const entry of session.entries) {
      entryNumber = entry.n;
      type(entry.groups, entry.operation.operation);
    }
    type(session.leave, "leave");
  }
  const { steps, memory: after, unread } = replay(plan.model, memory, acts);
  for (const [index, step] of steps.entries()) {
    const wanted = expected[index];
    const at = wanted?.entryNumber ?? entryNumber;
    must(step.taken, `every printed entry is taken; entry ${at}`);
    must(step.operation.operation === wanted?.operation, `every printed entry is read as what the plan says; entry ${at}`);
  }
  must(steps.length === expected.length && unread.length === 0, `every printed entry is read to its end; entry ${entryNumber}`);
  return after;
}

/** What is done at the keypad by whoever reads these groups: keys by the language's own reading, hand actions by their words. */
function readBack(groups: readonly KeyGroup[], hands: Hands, entryNumber = 1): readonly Act[] {
  const acts: Act[] = [];
  let keys: string[] = [];
  const press = () => {
    const { elements, problems } = parseKeys(keys.join(" "));
    must(problems.length === 0, `the printed keys of an entry can be read; entry ${entryNumber}`);
    for (const element of elements) {
      must(element.kind === "keys", `a sheet prints keys and no fields; entry ${entryNumber}`);
      const digits = /^[0-9]+$/.test(element.text);
      acts.push(...(digits ? [...element.text].map(key => ({ press: key })) : [{ press: element.text }]));
    }
    keys = [];
  };
  for (const group of shownGroups(groups, everything)) {
    if (group.is !== "hand") {
      keys.push(group.text);
      continue;
    }
    press();
    const act = hands.get(group.text);
    must(act, `a hand action of the plan stands on the sheet; entry ${entryNumber}`);
    acts.push(act);
  }
  press();
  return acts;
}

/** Hand actions by the words that they are printed with: two that look the same on paper cannot be told apart at the door. */
type Hands = ReadonlyMap<string, Act>;

function handsOf(plan: Plan): Hands {
  const hands = new Map<string, Act>();
  for (const session of plan.sessions)
    for (const groups of [session.enter, ...session.entries.map(entry => entry.groups), session.leave])
      for (const group of groups) {
        const [act] = group.acts;
        if (group.is !== "hand" || act === undefined) continue;
        const printed = shownGroup(group, everything).text;
        const known = hands.get(printed);
        must(known === undefined || JSON.stringify(known) === JSON.stringify(act), "two hand actions do not look the same on a sheet");
        hands.set(printed, act);
      }
  return hands;
}
