/** Entries as they are typed: grouped into programming sessions, numbered, each with its keys. */
import { encode, encodeEnter, encodeLeave } from "../keypad/encode.ts";
import type { Digits, KeyGroup, Memory, Operation } from "../keypad/memory.ts";
import type { Model } from "../keypad/model.ts";
import { must } from "../must.ts";
import { asks } from "./operation-of.ts";
import type { PlanEntry, PlanSession } from "./plan.ts";
import type { Step } from "./steps.ts";

/**
 * Encodes stretches of entries. Between two stretches programming mode is left only where the installer code changed, or where
 * the model ends it with each entry.
 */
export function sessionsOf(model: Model, before: Memory, stretches: readonly (readonly Step[])[]): readonly PlanSession[] {
  const numbers = new Map<Step, number>();
  for (const step of stretches.flat()) numbers.set(step, numbers.size + 1);
  const needed = new Set<Step>();
  for (const step of numbers.keys()) for (const need of step.needs) needed.add(need);

  const sessions: PlanSession[] = [];
  let installer = before.installer;
  for (const steps of sessionsTyped(model, stretches)) {
    must(installer !== undefined, "a session is entered with an installer code");
    const entered = installer;
    installer = steps.reduce((code, step) => installerAfter(model, step.operation, code), installer);
    sessions.push({
      enter: encodeEnter(model, entered),
      entries: steps.map(step => {
        // What comes after a new installer code is entered with it, and its keys may have it in them.
        const isEnteredWith = step.operation.operation === "set installer" && (numbers.get(step) ?? 0) < numbers.size;
        return { ...entryOf(model, step, entered, numbers), skippable: !needed.has(step) && !isEnteredWith };
      }),
      leave: model.session === "one entry" ? [] : encodeLeave(model, { installer }),
      changesInstaller: steps.some(step => step.operation.operation === "set installer"),
    });
  }
  return sessions;
}

/** Single presses of all sessions; hand actions count as none. */
export function pressesOf(sessions: readonly PlanSession[]): number {
  const presses = (groups: readonly KeyGroup[]) => groups.reduce((sum, group) => sum + group.acts.filter(act => "press" in act).length, 0);
  let sum = 0;
  for (const { enter, entries, leave } of sessions) {
    sum += presses(enter) + presses(leave);
    for (const entry of entries) sum += presses(entry.groups);
  }
  return sum;
}

function sessionsTyped(model: Model, stretches: readonly (readonly Step[])[]): readonly (readonly Step[])[] {
  if (model.session === "one entry") return stretches.flat().map(step => [step]);
  const sessions: Step[][] = [];
  let alone = true;
  for (const steps of stretches) {
    if (steps.length === 0) continue;
    const changes = steps.some(({ operation }) => changesInstaller(model, operation));
    const last = sessions.at(-1);
    if (last && !alone && !changes) for (const step of steps) last.push(step);
    else sessions.push([...steps]);
    alone = changes;
  }
  return sessions;
}

function changesInstaller(model: Model, operation: Operation): boolean {
  return operation.operation === "set installer" || wipes(model, operation);
}

function installerAfter(model: Model, operation: Operation, before: Digits): Digits {
  if (operation.operation === "set installer") return operation.code;
  return wipes(model, operation) ? (model.factory.installer ?? before) : before;
}

function wipes(model: Model, operation: Operation): boolean {
  return operation.operation === "clear all" && (model.operations.get("clear all")?.wipes ?? false);
}

function entryOf(model: Model, step: Step, installer: Digits, numbers: ReadonlyMap<Step, number>): Omit<PlanEntry, "skippable"> {
  const { operation, because } = step;
  const shows =
    operation.operation === "set setting" ? model.settings.get(operation.label)?.shows : model.operations.get(operation.operation)?.shows;
  return {
    n: numbers.get(step) ?? 0,
    operation,
    groups: encode(model, operation, { installer }),
    ...(shows === undefined ? {} : { shows }),
    repeatable: isRepeatable(model, operation, installer),
    needs: [...step.needs].map(need => numbers.get(need) ?? 0).sort((a, b) => a - b),
    ...(because ? { because } : {}),
  };
}

/** Typed a second time it is taken again and changes nothing. */
function isRepeatable(model: Model, operation: Operation, installer: Digits): boolean {
  const unnumbered = model.slots.addressing === "unnumbered";
  switch (operation.operation) {
    case "put code":
    case "put tag":
      return unnumbered ? model.twins !== "refused" : model.rewrite === "replaces";
    case "set all-relay":
      return operation.slot === undefined || model.rewrite === "replaces";
    case "set installer":
      return !asks(model, "set installer", "installer") || operation.code === installer;
    case "clear all":
      return !wipes(model, operation) || !asks(model, "clear all", "installer") || model.factory.installer === installer;
    default:
      return true;
  }
}
