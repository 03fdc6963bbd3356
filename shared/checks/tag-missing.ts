/** An entry names a tag that its holder does not have. */
import type { HeldUse } from "../site/site.ts";
import { heldEverywhere } from "../site/where.ts";
import type { Found } from "./check.ts";
import { at, check, mullion, only } from "./check.ts";
import { replace } from "./edits.ts";

interface Missing extends Found {
  readonly use: HeldUse;
}

export const tagMissing = check({
  code: "tag-missing",
  severity: "error",
  explain: {
    what: "An entry names a tag that its holder does not have.",
    why: "There is nothing to present at the keypad. Either the tag has not been handed out yet, or another of the holder's tags is meant.",
    triggers: mullion`
      holder u1 "Unit 1" code 4829

      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Gate" {
          1 u1
          2 u1.tag
            // ^^^ tag-missing
        }
      }
    `,
    quiet: mullion`
      holder u1 "Unit 1" code 4829 tag 8061261

      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Gate" {
          1 u1
          2 u1.tag
        }
      }
    `,
  },
  *find(site): Iterable<Missing> {
    for (const { keypad, use } of heldEverywhere(site)) {
      const { holder, credential, node } = use;
      if (!holder || credential || node.credential?.text !== "tag") continue;
      const related = [{ ...at(holder.file, holder.node.name ?? holder.node), message: holder.label }];
      yield { ...at(use.file, node.credential), ...only(keypad), related, use };
    }
  },
  message: ({ use }) => {
    const named = use.holder?.credentials.some(credential => credential.kind === "tag");
    return `${use.holder?.label} has no tag${named ? " without a name; say which of the named ones is meant" : ""}`;
  },
  fixes: ({ use }) =>
    (use.holder?.credentials ?? [])
      .filter(credential => credential.kind === "tag")
      .map(credential => ({ title: `Use ${credential.path}`, edits: [replace(use.file, use.node, credential.path)] })),
});
