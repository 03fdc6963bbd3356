/** What a simulated keypad did and holds, for a person: a line a step, then the memory in the words of a fitted record. */
import type { Memory, ReplayStep, Slot } from "../../../shared/keypad/memory.ts";
import type { Model } from "../../../shared/keypad/model.ts";
import { slotText } from "../../../shared/keypad/slot-text.ts";
import { visible } from "../../../shared/sheet/visible.ts";
import type { ShownStep } from "./typed.ts";

/** @param pending what was typed last and is no whole entry yet */
export function asText(steps: readonly ShownStep[], pending: readonly string[], memory: Memory, model: Model): string {
  const lines = stepLines(steps, pending);
  return `${[...lines, ...(lines.length > 0 ? [""] : []), "memory", ...memoryLines(memory, model).map(line => `  ${line}`)].join("\n")}\n`;
}

/** The answer to what was typed last: a line a step. */
export function answerText(steps: readonly ShownStep[], pending: readonly string[]): string {
  return stepLines(steps, pending)
    .map(line => `${line}\n`)
    .join("");
}

function stepLines(steps: readonly ShownStep[], pending: readonly string[]): readonly string[] {
  const typed = [...steps.map(({ groups }) => groups), pending].map(groups => visible(groups.join(" ")));
  const width = Math.min(60, Math.max(0, ...typed.map(({ length }) => length)));
  const lines = steps.map(({ step }, index) => `${(typed[index] ?? "").padEnd(width)}  → ${outcome(step)}`);
  if (pending.length > 0) lines.push(`${(typed.at(-1) ?? "").padEnd(width)}  → half typed, nothing has happened yet`);
  return lines;
}

/** `put code, taken`; `put code, refused: slot-taken`. */
function outcome(step: ReplayStep): string {
  return `${step.operation.operation}, ${step.taken ? "taken" : `refused: ${step.refusal.kind}`}`;
}

/** One fact a line; slots by what they fire, in the order held. */
function memoryLines(memory: Memory, model: Model): readonly string[] {
  const lines: string[] = [`installer code ${memory.installer ?? "unknown"}`];
  if (memory.codeLength !== undefined) lines.push(`code length ${memory.codeLength}`);
  for (const { number, code, unknown } of memory.allRelay.values()) {
    const place = number === undefined ? "all-relay" : `all-relay ${number}`;
    lines.push(unknown ? `${place} unknown` : `${place} code ${code}`);
  }
  for (const [label, value] of memory.settings) lines.push(`setting ${JSON.stringify(label)} ${value}`);
  for (const [relay, release] of memory.releases)
    lines.push(`relay ${relay} release ${typeof release === "number" ? `${release}s` : release}`);
  const byRelay = new Map<string, Slot[]>();
  for (const slot of memory.slots.values()) {
    const relay = slot.fires ?? "";
    byRelay.set(relay, [...(byRelay.get(relay) ?? []), slot]);
  }
  for (const [relay, slots] of byRelay) {
    lines.push(relay === "" ? "relay unknown" : `relay ${relay}`);
    for (const slot of slots) lines.push(`  ${slotLine(slot, model)}`);
  }
  return lines.map(visible);
}

function slotLine({ number, code, tag, needsBoth, unknown }: Slot, model: Model): string {
  const held = [code === undefined ? [] : [`code ${code}`], tag === undefined ? [] : [`tag ${tag}`]]
    .flat()
    .join(needsBoth ? " with " : " or ");
  return [number === undefined ? [] : [slotText(model, number)], [unknown ? "unknown" : held || "nothing"]].flat().join(" ");
}
