/** The plan for one keypad: what is typed to take it from one memory to another, in which order, and the proof that it does. */
import type { Reading } from "../keypad/alternatives.ts";
import { ambiguities } from "../keypad/ambiguity.ts";
import type { Memory, TagId } from "../keypad/memory.ts";
import type { Model } from "../keypad/model.ts";
import { BrokenInvariant } from "../must.ts";
import type { CannotPlan, Plan, Start } from "./plan.ts";
import { prove } from "./prove.ts";
import { pressesOf, sessionsOf } from "./sessions.ts";
import { runSeconds } from "./time.ts";
import type { Transition } from "./transition.ts";
import type { PlanOptions, Way } from "./way.ts";
import { wayTo } from "./way.ts";

/**
 * Plans one keypad.
 *
 * @param before what it holds. Of a keypad of which nothing is known (`start` says so) only the installer code to try counts;
 * of one that has just been reset it is what the reset leaves.
 * @param wanted what it is to hold.
 * @returns the plan, proved by replaying its own keys; or why there is none and what would do instead.
 * @throws BrokenInvariant where the proof fails of a model whose entries can be told apart.
 */
export function planKeypad(model: Model, before: Memory, wanted: Memory, start: Start, options: PlanOptions = {}): Plan | CannotPlan {
  const found = wayTo(model, before, wanted, start, options);
  if ("cannot" in found) return found;
  try {
    return written(model, found.way, found.transition);
  } catch (error) {
    // Where the manual's own entries cannot be told apart it is the model that fails the proof, and not the plan.
    const apart = error instanceof BrokenInvariant ? ambiguities(model)[0] : undefined;
    if (!apart) throw error;
    const name = ({ operation, label }: Reading) => (label === undefined ? `"${operation}"` : `the setting "${label}"`);
    return {
      cannot: `the keys of ${name(apart.first)} and ${name(apart.second)} of model ${model.id} cannot be told apart`,
      instead: "read the manual again: one of the two is probably written down wrongly",
    };
  }
}

function written(model: Model, way: Way, { beforeInstaller, installer, rest, doors }: Transition): Plan {
  if (way.clearAll) for (const step of [...beforeInstaller, ...(installer ? [installer] : []), ...rest]) step.needs.add(way.clearAll);
  const sessions = sessionsOf(model, way.before, [
    ...(way.clearAll ? [[way.clearAll]] : []),
    beforeInstaller,
    ...(installer ? [[installer]] : []),
    rest,
  ]);
  const entries = sessions.flatMap(session => session.entries);
  const tags = new Set<TagId>();
  for (const { groups } of entries)
    for (const { acts } of groups) for (const act of acts) if ("hand" in act && act.tag !== undefined) tags.add(act.tag);
  return {
    model,
    start: way.start,
    ...(way.reset ? { reset: way.reset } : {}),
    sessions,
    before: way.before,
    target: way.target,
    tags: [...tags],
    counts: { entries: entries.length, keys: pressesOf(sessions) },
    seconds: runSeconds(model, sessions),
    proof: prove(model, way.before, way.target, sessions, way.clearAll ? undefined : doors),
  };
}
