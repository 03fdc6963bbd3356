/** One tag under two names. */
import type { TagId } from "../keypad/memory.ts";
import type { Credential } from "../site/site.ts";
import { keypadIds, usesOf } from "../site/where.ts";
import type { Found } from "./check.ts";
import { at, check, mullion } from "./check.ts";
import { orNone } from "./touched.ts";
import { credentialWords } from "./words.ts";

interface Twice extends Found {
  readonly first: Credential;
  readonly again: Credential;
}

export const tagTwice = check({
  code: "tag-twice",
  severity: "error",
  exceptions: "warning for one number at two sites, with two holders",
  needsOpen: true,
  explain: {
    what: "One tag under two names, in any spelling of its number.",
    why: "A tag hangs on one key ring. Under two names nobody can say whose it is, and striking it out for the one takes it from the other.",
    triggers: mullion`
      holder u1 "Unit 1" tag 8061262
      holder u2 "Unit 2" tag 123,00334 lost
                           //^^^^^^^^^ tag-twice

      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Gate" {
          1 u1
        }
      }
    `,
    quiet: mullion`
      holder u1 "Unit 1" tag 8061262
      holder u2 "Unit 2" tag 123,00335

      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Gate" {
          1 u1
          2 u2
        }
      }
    `,
  },
  *find(site): Iterable<Twice> {
    const seen = new Map<TagId, Credential>();
    for (const holder of site.holders.values()) {
      for (const again of holder.credentials) {
        if (again.tag === undefined) continue;
        const first = seen.get(again.tag);
        if (!first) {
          seen.set(again.tag, again);
          continue;
        }
        const related = [{ ...at(first.file, spelledAt(first)), message: `also ${credentialWords(first)}` }];
        const keypads = orNone([...new Set([...keypadIds(usesOf(site, first)), ...keypadIds(usesOf(site, again))])]);
        yield { ...at(again.file, spelledAt(again)), related, keypads, first, again };
      }
    }
  },
  message: ({ first }) => `this is ${credentialWords(first)} as well`,
  across: {
    severity: "warning",
    *sees(site) {
      for (const holder of site.holders.values()) {
        for (const credential of holder.credentials) {
          // A mark tells tags apart within a site, and says nothing beyond it.
          if (credential.tag === undefined || credential.tag.startsWith('"')) continue;
          const keypads = orNone(keypadIds(usesOf(site, credential)));
          yield { ...at(credential.file, spelledAt(credential)), key: credential.tag, who: holder.label, person: holder.label, keypads };
        }
      }
    },
    message: (first, others) => `${first.who} carries a tag that others carry too: ${others.join(", ")}`,
  },
});

function spelledAt(credential: Credential): { readonly start: number; readonly end: number } {
  const { node } = credential;
  return node.kind === "tag" ? (node.number ?? node.mark ?? node) : node;
}
