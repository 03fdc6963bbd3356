/** The order of the tries, so that wrong ones never follow one another until the keypad locks. */
import type { Model } from "../keypad/model.ts";
import type { Try } from "./shape.ts";

/**
 * Good, bad, good: as long as there are good ones, each bad one stands between two. After that a good one is keyed again before
 * the keypad would lock; where nothing opens, the lockout is waited out.
 *
 * That a good code begins the count of wrong tries anew is common practice, no source.
 */
export function inPace(tries: readonly Try[], lockout: Model["lockout"]): readonly Try[] {
  const good = tries.filter(one => one.opens.length > 0);
  const bad = tries.filter(one => one.opens.length === 0);
  if (bad.length === 0) return good;
  const allowed = lockout ? Math.max(lockout.tries - 1, 0) : Number.POSITIVE_INFINITY;
  const ordered: Try[] = [];
  const again = good[0] && { ...good[0], kind: "again" as const };
  let next = 0;
  let wrong = 0;
  const key = (one: Try) => {
    ordered.push(one);
    wrong = one.opens.length > 0 ? 0 : wrong + 1;
  };
  for (const one of bad) {
    const fresh = good[next];
    if (fresh) {
      next += 1;
      key(fresh);
    } else if (wrong >= allowed && again && allowed > 0) key(again);
    const locked = lockout !== undefined && wrong >= Math.max(allowed, 1);
    if (locked) wrong = 0;
    key(locked ? { ...one, waitSeconds: lockout.seconds } : one);
  }
  for (const fresh of good.slice(next)) key(lockout && allowed === 0 && wrong > 0 ? { ...fresh, waitSeconds: lockout.seconds } : fresh);
  if (wrong > 0 && again && lockout) key(allowed === 0 ? { ...again, waitSeconds: lockout.seconds } : again);
  return ordered;
}

/** Said above the tries. */
export function paceWords(lockout: Model["lockout"]): string | undefined {
  if (!lockout) return undefined;
  const times = lockout.tries === 1 ? "one wrong try" : `${lockout.tries} wrong tries in a row`;
  return `The keypad locks for ${lockout.seconds} s after ${times}: keep to this order.`;
}
