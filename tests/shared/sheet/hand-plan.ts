/** A plan written by hand, so that a test decides what stands in it. The sheet proves it like any other. */
import { encode, encodeEnter, encodeLeave } from "../../../shared/keypad/encode.ts";
import type { Memory, Operation } from "../../../shared/keypad/memory.ts";
import type { Model } from "../../../shared/keypad/model.ts";
import type { Plan, PlanEntry, PlanSession, Start } from "../../../shared/plan/plan.ts";
import { runSeconds } from "../../../shared/plan/time.ts";

type Written = readonly [Operation, Partial<PlanEntry>?];

/** One session for each list of operations; a session that changes the installer code is entered with the old one. */
export function planOf(model: Model, start: Start, before: Memory, target: Memory, sessions: readonly (readonly Written[])[]): Plan {
  let n = 0;
  let installer = before.installer ?? "";
  const planned = sessions.map((written): PlanSession => {
    const enter = encodeEnter(model, installer);
    const entries = written.map(([operation, more]): PlanEntry => {
      n += 1;
      const shows =
        operation.operation === "set setting"
          ? model.settings.get(operation.label)?.shows
          : model.operations.get(operation.operation)?.shows;
      const groups = encode(model, operation, { installer });
      if (operation.operation === "set installer") installer = operation.code;
      return { n, operation, groups, repeatable: true, skippable: true, needs: [], ...(shows === undefined ? {} : { shows }), ...more };
    });
    return {
      enter,
      entries,
      leave: encodeLeave(model),
      changesInstaller: written.some(([{ operation }]) => operation === "set installer"),
    };
  });
  const acts = planned.flatMap(({ enter, entries, leave }) => [...enter, ...entries.flatMap(({ groups }) => groups), ...leave]);
  return {
    model,
    start,
    sessions: planned,
    before,
    target,
    tags: [...new Set(sessions.flat().flatMap(([operation]) => (operation.operation === "put tag" ? [operation.tag] : [])))],
    counts: { entries: n, keys: acts.flatMap(group => group.acts).filter(act => "press" in act).length },
    seconds: runSeconds(model, planned),
    proof: { reachesTarget: true, safeAtEveryEntry: true },
  };
}
