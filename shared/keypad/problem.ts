/** What is wrong with a keypad model's text, as the checks `model-field` and `model-incomplete` show it. */
import type { Span } from "../../grammar/tree.ts";

export interface ModelProblem {
  readonly check: "model-field" | "model-incomplete";
  readonly kind: /* model-field */
    | "unknown-field"
    | "field-width"
    | "field-narrow"
    | "relay-keys-twice"
    | "key-missing"
    | "number-range"
    /* model-incomplete */
    | "fact-missing"
    | "operation-missing"
    | "field-missing"
    | "field-not-here"
    | "contradiction"
    | "factory"
    | "limits";
  readonly span: Span;
  /** In words, without a code. */
  readonly message: string;
  readonly related?: Span;
  /** `limits` is what cannot be planned with the model: nothing is wrong, the person should know. */
  readonly severity: "error" | "warning";
}

export type Report = (
  check: ModelProblem["check"],
  kind: ModelProblem["kind"],
  span: Span,
  message: string,
  more?: { readonly related?: Span; readonly severity?: "warning" },
) => void;
