/** What a refusal looks like and how to get out of a half-typed entry. */
import type { Model } from "../keypad/model.ts";
import { visible } from "./visible.ts";

/** "three short beeps; C gets out". */
export function refusalWords(model: Model): string {
  const looks = model.refusedShows === undefined ? "not described in the model" : visible(model.refusedShows);
  const cancel = model.cancel.flatMap(element => {
    if (element.kind === "hand") return [`[${visible(element.text)}]`];
    return element.kind === "keys" ? [element.text] : [];
  });
  return cancel.length === 0 ? looks : `${looks}; ${cancel.join(" ")} gets out`;
}
