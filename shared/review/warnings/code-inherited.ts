/** A holder is called otherwise, and the code is the old one: whoever was there before still knows it. */
import { labelled } from "../../sheet/visible.ts";
import { credentialPairs } from "../match.ts";
import type { Warning } from "./warning.ts";

export const codeInherited: Warning = {
  code: "code-inherited",
  explain: {
    what: "A holder's label changed and a code of theirs did not.",
    why: "Where somebody else moved in, the one who moved out still knows the code. Where only the spelling changed, nothing needs to be done.",
    before: `holder u2 "Unit 2, sail loft" code 5591`,
    triggers: `holder u2 "Unit 2, tattooist" code 5591`,
    quiet: `holder u2 "Unit 2, tattooist" code 8237`,
  },
  find: (_before, _after, holders) =>
    holders.flatMap(pair => {
      const { was, is } = pair;
      if (!was || !is || was.label === is.label) return [];
      const kept = credentialPairs(pair).flatMap(({ was: old, is: next }) =>
        old && next?.kind === "code" && next.digits !== undefined && old.digits === next.digits ? [next] : [],
      );
      return kept.map(({ name }) => ({
        holder: is.id,
        message: `${labelled(was.label)} is now called ${labelled(is.label)}, and ${name === undefined ? "the code" : `the code "${name}"`} is the same: where somebody else moved in, it is still known to who moved out`,
      }));
    }),
};
