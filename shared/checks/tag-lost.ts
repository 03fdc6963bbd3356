/** A lost tag that is still placed. */
import type { HeldAt } from "../site/where.ts";
import { heldEverywhere } from "../site/where.ts";
import type { Found } from "./check.ts";
import { at, check, mullion, only } from "./check.ts";
import { removePlaced } from "./edits.ts";
import { credentialWords, placeWords } from "./words.ts";

interface Lost extends Found {
  readonly placed: HeldAt;
}

export const tagLost = check({
  code: "tag-lost",
  severity: "error",
  needsOpen: true,
  explain: {
    what: "A tag that is lost is still placed.",
    why: "Whoever finds it can open the door, and it cannot be presented again: take the entry out, so that the next visit clears its slot.",
    triggers: mullion`
      holder u1 "Unit 1" code 4829 tag 8061261 lost

      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Gate" {
          1 u1
          2 u1.tag
          //^^^^^^ tag-lost
        }
      }
    `,
    quiet: mullion`
      holder u1 "Unit 1" code 4829 tag 8061261 lost

      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Gate" {
          1 u1
        }
      }
    `,
  },
  *find(site): Iterable<Lost> {
    for (const placed of heldEverywhere(site)) {
      const { keypad, use } = placed;
      const { credential } = use;
      if (!credential?.lost) continue;
      const lost = credential.node.kind === "tag" ? credential.node.lost : undefined;
      const related = [{ ...at(credential.file, lost ?? credential.node), message: "lost" }];
      yield { ...at(use.file, use.node), ...only(keypad), related, placed, tags: ["deprecated"] };
    }
  },
  message: ({ placed }) => {
    const credential = placed.use.credential;
    const where = placed.as === "slot" ? placeWords(placed.placement) : placed.keypad.label;
    return `${credential ? credentialWords(credential) : "the tag"} is lost, and still in ${where}`;
  },
  fixes: ({ placed }, site) => removePlaced(site, placed),
});
