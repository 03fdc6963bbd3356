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
import { asText } from "./text.ts";
import { actsOf, groupsOf, typedGroups } from "./typed.ts";

/** @throws ToolProblem where the model, the record or the keys cannot be read */
export function replayKeys(path: string, options: OptionValues, around: Surroundings): ExitStatus {
  const files = shelf();
  const read = (typed: string) => loadSite(openNamed(files, typed, around.cwd).file, files.open);
  const model = oneOf(read(path).models, textOf(options, "model"), "model", path);
  const from = textOf(options, "from");
  const memory = from === undefined ? model.factory : held(read(from), textOf(options, "keypad"), from, model);

  const typed = textOf(options, "keys") ?? around.readInput();
  const { elements, problems: slips } = parseKeys(typed);
  const [slip] = slips;
  if (slip) throw new ToolProblem(`the keys cannot be read at character ${slip.start + 1}: ${slip.message}`);
  const acts = actsOf(elements);
  const {
    steps,
    memory: after,
    unread,
  } = replay(
    model,
    memory,
    acts.map(({ act }) => act),
  );
  const shown = typedGroups(steps, acts);
  const pending = groupsOf(acts.slice(acts.length - unread.length));
  around.out(options.format === "json" ? asJson(shown, pending, after, model) : asText(shown, pending, after, model));
  return steps.every(step => step.taken) ? 0 : 1;
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
