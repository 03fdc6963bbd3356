/** How long one row of a sheet takes, an entry or a try: keys only, a practised hand. */
import type { KeyGroup } from "../keypad/memory.ts";
import { taskSeconds } from "../plan/time.ts";

/** Seconds: one preparation, its keys, a pointing act for each tag or other hand action, and its waits. */
export function rowSeconds(groups: readonly KeyGroup[]): number {
  let keys = 0;
  let points = 0;
  let waits = 0;
  for (const { acts } of groups)
    for (const act of acts) {
      const wait = "hand" in act ? /^wait (\d+) ?s$/.exec(act.hand)?.[1] : undefined;
      if ("press" in act) keys += 1;
      else if (wait === undefined) points += 1;
      else waits += Number(wait);
    }
  return taskSeconds({ keys, points, prepares: 1, waits });
}
