/** What a simulated keypad did and holds, for programs: a stable shape; what does not apply is absent. */
import { jsonText } from "../../../shared/json-text.ts";
import type { Memory, Slot } from "../../../shared/keypad/memory.ts";
import type { Model } from "../../../shared/keypad/model.ts";
import type { ShownStep } from "./typed.ts";

/** @param pending what was typed last and is no whole entry yet */
export function asJson(steps: readonly ShownStep[], pending: readonly string[], memory: Memory, model: Model): string {
  const shown = {
    steps: steps.map(({ step, groups }) => ({
      operation: step.operation.operation,
      keys: groups,
      taken: step.taken,
      reason: step.taken ? undefined : step.refusal.kind,
    })),
    halfTyped: pending.length > 0 ? pending : undefined,
    memory: {
      installer: memory.installer,
      codeLength: memory.codeLength,
      allRelay: [...memory.allRelay.values()].map(({ number, code, unknown }) => ({ number, code, unknown })),
      settings: Object.fromEntries(memory.settings),
      releases: Object.fromEntries(memory.releases),
      slots: [...memory.slots.values()].map(slot => slotOf(slot, model)),
    },
  };
  return jsonText(shown);
}

/** `relay` where a place belongs to one; `fires` are the single relays. */
function slotOf({ number, fires, code, tag, needsBoth, unknown }: Slot, { slots }: Model): object {
  const ofRelay = slots.addressing === "per relay" || slots.addressing === "one per relay";
  return { relay: ofRelay ? fires : undefined, slot: number, fires: fires?.split("+"), code, tag, needsBoth, unknown };
}
