/** A model that lacks what its keypad cannot be programmed without. */
import type { Found } from "./check.ts";
import { check, mullion } from "./check.ts";
import type { InModel } from "./in-model.ts";
import { inModels } from "./in-model.ts";

export const modelIncomplete = check({
  code: "model-incomplete",
  severity: "error",
  exceptions: "warning where it only says what cannot be planned with the model",
  explain: {
    what: "An operation of a model lacks a field that it needs, or the model lacks an operation, or what goes together does not.",
    why: "Without it nothing, or not everything, can be typed. A model that can put but neither overwrite nor clear can never take anybody out again.",
    triggers: mullion`
      model wader "One relay" {
          //^^^^^ model-incomplete
        relays 1 = 1
        slots 1..3 per relay
        codes 4 digits
        enter * {installer} #
        leave * *
        put code 1 {slot} {code} #
        clear slot 3 {slot} #
        factory { installer code 9753 }
      }
    `,
    quiet: mullion`
      model wader "One relay" {
        relays 1 = 1
        slots 1..3 per relay
        codes 4 digits
        enter * {installer} #
        leave * *
        put code 1 {slot} {code} #
        clear slot 3 {slot} #
        open code {code}
        factory { installer code 9753 }
      }
    `,
  },
  find: (site): Iterable<Found & InModel> => inModels(site, "model-incomplete"),
  message: ({ inModel }) => inModel.message,
});
