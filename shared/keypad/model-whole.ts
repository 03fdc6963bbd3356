/** Whether a model's lines go together: what every keypad needs, and what this one cannot do. */
import type { ModelDecl, OperationDecl, OperationName, Span } from "../../grammar/tree.ts";
import type { Model } from "./model.ts";
import type { Report } from "./problem.ts";
import { isNumbered, numbersAllRelay } from "./slot-key.ts";

/** Reports what is missing or contradicts itself. An operation that is written but wrong is not missing as well. */
export function checkWhole(model: Model, name: Span, decl: ModelDecl, report: Report): void {
  const written = (operation: OperationName): OperationDecl | undefined =>
    decl.facts.find((fact): fact is OperationDecl => fact.kind === "operation" && fact.operation === operation);
  const has = (...operations: OperationName[]) => operations.some(operation => written(operation));
  const missing = (message: string, span: Span = name) => report("model-incomplete", "operation-missing", span, message);
  const at = (operation: OperationName, message: string) =>
    report("model-incomplete", "contradiction", written(operation)?.name ?? name, message);

  if (!has("enter")) missing("the model does not say how programming mode is entered (enter)");
  if (!has("put code", "put tag")) missing("the model has nothing to put a code or a tag with (put code, put tag)");
  if (!has("open code", "open all-relay", "open tag", "open both")) missing("the model does not say how a door is opened (open code)");
  else {
    if (has("put code") && !has("open code", "open both"))
      missing("codes are put but nothing opens with one (open code)", written("put code")?.name);
    if (has("put tag") && !has("open tag", "open both"))
      missing("tags are put but nothing opens with one (open tag)", written("put tag")?.name);
  }
  if (has("set all-relay") && !has("open all-relay")) {
    missing("an all-relay code is set but nothing opens with one (open all-relay)", written("set all-relay")?.name);
  }
  checkPairs(model, name, has, missing, report);
  checkLengths(model, name, has, at, report);

  if (has("set release") && !model.release) at("set release", "the model does not say which release times there are (release 1s..99s)");
  if (!isNumbered(model) && model.slots.addressing === "unnumbered" && has("clear slot")) {
    at("clear slot", "slots without numbers are cleared by code or tag (clear code, clear tag)");
  }
  const clearAllRelay = model.operations.get("clear all-relay");
  if (
    clearAllRelay &&
    numbersAllRelay(model) &&
    !clearAllRelay.template.some(one => one.kind === "field" && /^(slot|code)$/.test(one.name.text))
  ) {
    at("clear all-relay", "all-relay codes are kept by number: say which is cleared ({slot} or {code})");
  }
  checkLimits(model, has, written, report);
}

function checkPairs(
  model: Model,
  name: Span,
  has: (...operations: OperationName[]) => boolean,
  missing: (message: string) => void,
  report: Report,
): void {
  const { holds } = model.slots;
  if (holds === "one") return;
  if (!has("put code") || !has("put tag")) missing(`slots hold a ${holds}: put code and put tag are both needed`);
  if (holds === "code with tag" && !has("open both")) missing("slots hold a code with a tag: say how both are used (open both)");
  if (model.slots.addressing === "unnumbered") {
    report(
      "model-incomplete",
      "contradiction",
      name,
      "slots without numbers cannot hold a code and a tag: nothing says which belong together",
    );
  }
}

function checkLengths(
  model: Model,
  name: Span,
  has: (...operations: OperationName[]) => boolean,
  at: (operation: OperationName, message: string) => void,
  report: Report,
): void {
  if (has("set length") && model.length !== "set by entry")
    at("set length", "the code length is set by an entry here: say so (length set by entry)");
  if (!has("set length") && model.length === "set by entry") {
    report("model-incomplete", "operation-missing", name, "the code length is set by an entry: say by which (set length)");
  }
  if (model.length === "follows installer code" && model.installerLengths.some(length => !model.codeLengths.includes(length))) {
    report(
      "model-incomplete",
      "contradiction",
      name,
      "codes are as long as the installer code, which may have a length that codes do not have",
    );
  }
}

/** What cannot be planned: nothing is wrong with the text, but the person should know. */
function checkLimits(
  model: Model,
  has: (...operations: OperationName[]) => boolean,
  written: (operation: OperationName) => OperationDecl | undefined,
  report: Report,
): void {
  const overwrites = model.rewrite === "replaces" && model.slots.addressing !== "unnumbered";
  const limit = (operation: OperationName, what: string, instead: string) => {
    const put = written(operation);
    if (!put || overwrites || has("clear slot", instead as OperationName)) return;
    const rest = has("clear all") ? "only by clearing everything" : "not at all";
    report(
      "model-incomplete",
      "limits",
      put.name,
      `a ${what} can be put but neither overwritten nor cleared: it can be changed or taken out ${rest}`,
      {
        severity: "warning",
      },
    );
  };
  limit("put code", "code", "clear code");
  limit("put tag", "tag", "clear tag");
}
