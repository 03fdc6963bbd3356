/** How long a run takes: keys only, a practised hand. */
import type { Act, KeyGroup } from "../keypad/memory.ts";
import type { Model } from "../keypad/model.ts";
import type { PlanSession } from "./plan.ts";

/**
 * Operators of the Keystroke-Level Model, in seconds.
 * Source: Card, Moran and Newell, "The keystroke-level model for user performance time with interactive systems", CACM 23(7), 1980.
 */
export const operatorSeconds = {
  /** One key, at the rate for typing complex codes. */
  key: 0.75,
  /** Pointing at a target with the hand; here: holding a tag to the reader. */
  point: 1.1,
  /** Preparing mentally for one unit of work; here: for one entry. */
  prepare: 1.35,
  /** Moving the hand from one device to another. */
  home: 0.4,
} as const;

/** How often each operator occurs in a task. */
export interface Task {
  readonly keys: number;
  readonly points?: number;
  readonly prepares?: number;
  readonly homes?: number;
  /** Seconds that the person waits for the system. */
  readonly waits?: number;
}

/** Seconds that a task takes by the Keystroke-Level Model. @param keySeconds of one key, where it is not a complex code. */
export function taskSeconds(task: Task, keySeconds: number = operatorSeconds.key): number {
  return (
    task.keys * keySeconds +
    (task.points ?? 0) * operatorSeconds.point +
    (task.prepares ?? 0) * operatorSeconds.prepare +
    (task.homes ?? 0) * operatorSeconds.home +
    (task.waits ?? 0)
  );
}

/** Seconds of a whole run: settling after power-up, every session, and the wait where a model is only left by its `lapse`. */
export function runSeconds(model: Model, sessions: readonly PlanSession[]): number {
  let keys = 0;
  let points = 0;
  let prepares = 0;
  let waits = sessions.length > 0 ? model.settleSeconds : 0;
  const count = (groups: readonly KeyGroup[]) => {
    for (const group of groups)
      for (const act of group.acts) {
        if ("press" in act) keys++;
        else if (waitOf(act) > 0) waits += waitOf(act);
        else points++;
      }
  };
  for (const session of sessions) {
    count(session.enter);
    for (const entry of session.entries) {
      prepares++;
      count(entry.groups);
    }
    count(session.leave);
    if (session.leave.length === 0 && model.session === "many entries") waits += model.lapseSeconds ?? 0;
  }
  return taskSeconds({ keys, points, prepares, waits });
}

/** Whole minutes, rounded up: what is shown to a person. */
export function minutesOf(seconds: number): number {
  return Math.ceil(seconds / 60);
}

/** The longest pause between two keys of an entry, in seconds: its hand actions, and the preparation where it begins with one. */
export function longestPause(groups: readonly KeyGroup[]): number {
  let longest = 0;
  let pause = 0;
  for (const group of groups)
    for (const act of group.acts) {
      if ("press" in act) pause = 0;
      else {
        pause += waitOf(act) || operatorSeconds.point;
        longest = Math.max(longest, pause);
      }
    }
  return longest;
}

/** `[wait 3s]` is 3; any other act is 0. */
function waitOf(act: Act): number {
  const wait = "hand" in act ? /^wait (\d+) ?s$/.exec(act.hand) : undefined;
  return wait ? Number(wait[1]) : 0;
}
