/** Sets up a simulated keypad, types the keys, and writes what came of it. */
import { parseKeys } from "../../../grammar/parse.ts";
import type { FittedDecl } from "../../../grammar/tree.ts";
import { memoryOf } from "../../../shared/keypad/fitted-memory.ts";
import type { Memory } from "../../../shared/keypad/memory.ts";
import type { Model } from "../../../shared/keypad/model.ts";
import { replay } from "../../../shared/keypad/replay.ts";
import { loadSite } from "../../../shared/site/load.ts";
import { shelf } from "../../files.ts";
import { ToolProblem } from "../../tool-problem.ts";
import { openNamed } from "../asked.ts";
import type { ExitStatus, OptionValues } from "../command.ts";
import { textOf } from "../command.ts";
import { meant } from "../nearest.ts";
import type { Surroundings } from "../surroundings.ts";
import { asJson } from "./json.ts";
import { answerText, asText } from "./text.ts";
import type { ShownStep, TypedAct } from "./typed.ts";
import { actsOf, groupsOf, typedGroups } from "./typed.ts";

/** @throws ToolProblem where the model, the record or the keys cannot be read */
export function replayKeys(path: string, options: OptionValues, around: Surroundings): ExitStatus {
  const files = shelf();
  const read = (typed: string) => loadSite(openNamed(files, typed, around.cwd).file, files.open);
  const model = oneOf(read(path).models, textOf(options, "model"), "model", path);
  const from = textOf(options, "from");
  const memory = from === undefined ? model.factory : held(read(from), textOf(options, "keypad"), from, model);

  const given = textOf(options, "keys");
  const isText = options.format !== "json";
  if (given === undefined && isText && around.typedLines) return converse(model, memory, around.typedLines(), around);
  const { steps, pending, memory: after } = typedInto(model, memory, keysOf(given ?? around.readInput()));
  around.out(isText ? asText(steps, pending, after, model) : asJson(steps, pending, after, model));
  return isRefusing(steps) ? 1 : 0;
}

/** A line of keys at a time, answered at once. A line that cannot be read is told, and not typed. */
function converse(model: Model, memory: Memory, lines: Iterable<string>, around: Surroundings): ExitStatus {
  around.err("Type keys as in a model, a line at a time; Ctrl-D on an empty line ends (on Windows Ctrl-Z, Enter).\n");
  const acts: TypedAct[] = [];
  let answered = 0;
  for (const line of lines) {
    try {
      for (const act of keysOf(line)) acts.push(act);
    } catch (error) {
      if (!(error instanceof ToolProblem)) throw error;
      around.err(`${error.message}; nothing of this line was typed\n`);
      continue;
    }
    const { steps, pending } = typedInto(model, memory, acts);
    around.out(answerText(steps.slice(answered), pending));
    answered = steps.length;
  }
  const { steps, memory: after } = typedInto(model, memory, acts);
  around.out(`\n${asText([], [], after, model)}`);
  return isRefusing(steps) ? 1 : 0;
}

/** @throws ToolProblem where they cannot be read */
function keysOf(typed: string): readonly TypedAct[] {
  const { elements, problems } = parseKeys(typed);
  const [slip] = problems;
  if (!slip) return actsOf(elements);
  const before = typed.slice(0, slip.start).split(/\r\n|[\r\n]/);
  const line = before.length > 1 ? `in line ${before.length}, ` : "";
  throw new ToolProblem(`the keys cannot be read ${line}at character ${(before.at(-1) ?? "").length + 1}: ${slip.message}`);
}

function typedInto(model: Model, memory: Memory, acts: readonly TypedAct[]) {
  const made = replay(
    model,
    memory,
    acts.map(({ act }) => act),
  );
  return { steps: typedGroups(made.steps, acts), pending: groupsOf(acts.slice(acts.length - made.unread.length)), memory: made.memory };
}

function isRefusing(steps: readonly ShownStep[]): boolean {
  return steps.some(({ step }) => !step.taken);
}

function held(site: ReturnType<typeof loadSite>, keypad: string | undefined, path: string, model: Model): Memory {
  const records = new Map<string, FittedDecl>(site.fitted.map(fitted => [fitted.keypadId, fitted.node]));
  return memoryOf(model, oneOf(records, keypad, "keypad", path).facts).memory;
}

/** The one that is named, or the only one that there is. */
function oneOf<T>(known: ReadonlyMap<string, T>, id: string | undefined, what: "model" | "keypad", path: string): T {
  const ids = [...known.keys()];
  const only = id ?? (ids.length === 1 ? ids[0] : undefined);
  if (only === undefined) {
    const several = `${path} has ${ids.length} ${what}s; say which with --${what}: ${ids.join(", ")}`;
    throw new ToolProblem(ids.length > 0 ? several : `${path} has no ${what} that can be used; mullion check ${path} says why`);
  }
  const found = known.get(only);
  if (found === undefined) {
    const others = ids.length > 0 ? `; it has ${ids.join(", ")}` : `; mullion check ${path} may say why`;
    throw new ToolProblem(`${path} has no ${what} ${only} that can be used${meant(only, ids)}${others}`);
  }
  return found;
}
