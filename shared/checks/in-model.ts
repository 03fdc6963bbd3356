/** What the compiler of models found, for the check that it belongs to. */
import type { ModelProblem } from "../keypad/problem.ts";
import type { Site } from "../site/site.ts";
import type { Found } from "./check.ts";
import { at } from "./check.ts";
import { keypadsWithModel, orNone } from "./touched.ts";

export interface InModel extends Found {
  readonly inModel: ModelProblem;
}

/** The problems of all models that a check takes. */
export function* inModels(site: Site, check: ModelProblem["check"]): Iterable<InModel> {
  for (const { file, node, problem } of site.modelProblems) {
    if (problem.check !== check) continue;
    const related = problem.related ? [{ ...at(file, problem.related), message: "this one" }] : [];
    const keypads = orNone(node.name ? keypadsWithModel(site, node.name.text) : []);
    yield { ...at(file, problem.span), inModel: problem, severity: problem.severity, related, keypads };
  }
}
