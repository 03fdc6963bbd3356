/** Keys as they were typed in: turned into single presses, and back into the groups that they stood in. */
import type { Element } from "../../../grammar/tree.ts";
import type { Act, ReplayStep } from "../../../shared/keypad/memory.ts";
import { markedTag, readTag } from "../../../shared/tags/spelling.ts";
import { ToolProblem } from "../../tool-problem.ts";

/** A press or a hand action, and which of the typed elements it came from. */
export interface TypedAct {
  readonly act: Act;
  readonly element: Element;
}

export interface ShownStep {
  readonly step: ReplayStep;
  /** As they were typed: `["7", "4", "01", "48291", "OK"]`. */
  readonly groups: readonly string[];
}

/** @throws ToolProblem for a `{field}`, which nobody can press */
export function actsOf(elements: readonly Element[]): readonly TypedAct[] {
  return elements.flatMap((element): readonly TypedAct[] => {
    if (element.kind === "field") throw new ToolProblem(`{${element.name.text}} stands among the keys; write what is typed in its place`);
    if (element.kind === "hand") return [{ act: handAct(element.text), element }];
    const presses = /^\d+$/.test(element.text) ? [...element.text] : [element.text];
    return presses.map(press => ({ act: { press }, element }));
  });
}

/** `present tag 8061261`, in any of the three spellings, or with the tag's mark; any other action is what it says. */
function handAct(text: string): Act {
  const written = /^present tag (\S.*)$/.exec(text)?.[1];
  if (written === undefined) return { hand: text };
  const number = readTag(written);
  return { hand: "present tag", tag: "tag" in number ? number.tag : written.startsWith('"') ? written : markedTag(written) };
}

/** Each step with the stretch of typing that it was made of; the steps take every act once, in order. */
export function typedGroups(steps: readonly ReplayStep[], acts: readonly TypedAct[]): readonly ShownStep[] {
  let at = 0;
  return steps.map(step => {
    const stretch = acts.slice(at, at + step.acts.length);
    at += step.acts.length;
    return { step, groups: groupsOf(stretch) };
  });
}

/** A stretch of typing in the groups that it stood in. */
export function groupsOf(stretch: readonly TypedAct[]): readonly string[] {
  const groups: string[] = [];
  stretch.forEach(({ act, element }, index) => {
    const text = "press" in act ? act.press : handText(act.hand, act.tag);
    if (index > 0 && stretch[index - 1]?.element === element) groups[groups.length - 1] += text;
    else groups.push(text);
  });
  return groups;
}

function handText(hand: string, tag: string | undefined): string {
  return tag === undefined ? `[${hand}]` : `[${hand} ${tag}]`;
}
