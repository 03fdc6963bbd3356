/** Models and memories for the tests of plans, written as Mullion text. */
import { parse } from "../../../grammar/parse.ts";
import { compileModel } from "../../../shared/keypad/compile.ts";
import { memoryOf } from "../../../shared/keypad/fitted-memory.ts";
import type { Memory, Operation } from "../../../shared/keypad/memory.ts";
import type { Model } from "../../../shared/keypad/model.ts";
import type { CannotPlan, Plan } from "../../../shared/plan/plan.ts";
import { planKeypad } from "../../../shared/plan/plan-keypad.ts";
import type { PlanOptions } from "../../../shared/plan/way.ts";

/** A model from the lines of its text that matter; what a keypad always needs is added. */
export function modelOf(lines: string, name = "heron"): Model {
  const text = `model ${name} "A model of the tests" {\n${lines}\n}`;
  const decl = parse(text).tree.declarations.find(one => one.kind === "model");
  if (decl?.kind !== "model") throw new Error("the text of the test has no model");
  const { model, problems } = compileModel(decl, "heron.mullion");
  const errors = problems.filter(problem => problem.severity === "error");
  if (!model || errors.length > 0)
    throw new Error(`the model of the test does not compile: ${errors.map(one => one.message).join("; ")}\n${text}`);
  return model;
}

/** A memory from the lines of a fitted block. */
export function memory(model: Model, lines: string): Memory {
  const decl = parse(`fitted gate 2026-11-20 {\n${lines}\n}`).tree.declarations[0];
  if (decl?.kind !== "fitted") throw new Error("the text of the test has no fitted block");
  const { memory: read, problems } = memoryOf(model, decl.facts);
  if (problems.length > 0) throw new Error(`the memory of the test does not fit its model: ${problems.map(one => one.message).join("; ")}`);
  return read;
}

/** A plan that must exist. */
export function planOf(model: Model, before: string | Memory, wanted: string | Memory, options?: PlanOptions): Plan {
  const plan = tryPlan(model, before, wanted, options);
  if ("cannot" in plan) throw new Error(`no plan: ${plan.cannot}`);
  return plan;
}

export function tryPlan(model: Model, before: string | Memory, wanted: string | Memory, options?: PlanOptions): Plan | CannotPlan {
  const read = (what: string | Memory) => (typeof what === "string" ? memory(model, what) : what);
  return planKeypad(model, read(before), read(wanted), { from: "fitted", knows: "all" }, options);
}

/** The entries of a plan, one a line, sessions set apart by a line of dashes. */
export function entriesOf(plan: Plan): string {
  return plan.sessions
    .map(session =>
      session.entries
        .map(
          entry =>
            `${entry.n} ${written(entry.operation)}${entry.because ? ` (${entry.because})` : ""}${entry.needs.length ? ` after ${entry.needs.join(",")}` : ""}`,
        )
        .join("\n"),
    )
    .join("\n--\n");
}

export function written(operation: Operation): string {
  const { operation: name, ...fields } = operation;
  const place = [fields as { relay?: string; slot?: number }].map(
    ({ relay, slot }) => `${relay ?? ""}${slot === undefined ? "" : `/${slot}`}`,
  )[0];
  const rest = Object.entries(fields).filter(([field]) => field !== "relay" && field !== "slot");
  return [name, place, ...rest.map(([, value]) => value)].filter(part => part !== "").join(" ");
}
