/** A field, a key or a number in a model that its keypad cannot have. */
import type { Found } from "./check.ts";
import { check, mullion } from "./check.ts";
import type { InModel } from "./in-model.ts";
import { inModels } from "./in-model.ts";

export const modelField = check({
  code: "model-field",
  severity: "error",
  explain: {
    what: "A model's line with an unknown field, a width too small for its slots, relays that are typed the same, or a key that the keypad does not have.",
    why: "What is typed from such a line would be wrong at the door. The operation is left out until the line is right.",
    triggers: mullion`
      model wader "One relay" {
        keys 0..9 * #
        relays 1 = 1
        slots 1..3 per relay
        codes 4 digits
        enter * {installer} #
        leave * *
        put code 1 {slot} {code} OK
                               //^^ model-field
        clear slot 3 {slot} #
        open code {code}
        factory { installer code 9753 }
      }
    `,
    quiet: mullion`
      model wader "One relay" {
        keys 0..9 * #
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
  find: (site): Iterable<Found & InModel> => inModels(site, "model-field"),
  message: ({ inModel }) => inModel.message,
});
