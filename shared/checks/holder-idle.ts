/** A code or tag that is placed nowhere. */
import type { Credential } from "../site/site.ts";
import { usesOf } from "../site/where.ts";
import type { Found } from "./check.ts";
import { at, check, mullion } from "./check.ts";
import { daysBetween } from "./days.ts";
import { credentialWords } from "./words.ts";

interface Idle extends Found {
  readonly credential: Credential;
}

export const holderIdle = check({
  code: "holder-idle",
  severity: "hint",
  needsOpen: true,
  explain: {
    what: "A code or tag that is placed nowhere.",
    why: "It opens nothing. Either an entry is missing, or it was left over when one was taken out. An installer code and an all-relay code are places too; a tag that is lost and what has lapsed are not asked for.",
    triggers: mullion`
      holder u1 "Unit 1" code 4829 tag 8061261
                                 //^^^^^^^^^^^ holder-idle

      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Gate" {
          1 u1
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
  *find(site, { today }): Iterable<Idle> {
    // A file of holders on its own places nobody anywhere, and that is no news.
    if (site.keypads.size === 0) return;
    for (const holder of site.holders.values()) {
      for (const credential of holder.credentials) {
        const lapsed = credential.until !== undefined && (daysBetween(today, credential.until) ?? 0) < 0;
        if (isUnfinished(credential) || credential.lost || lapsed || usesOf(site, credential).length > 0) continue;
        yield { ...at(credential.file, credential.node), credential, tags: ["unnecessary"] };
      }
    }
  },
  message: ({ credential }) => `${credentialWords(credential)} is placed nowhere`,
});

/** Half typed: neither digits nor a tag's number or mark yet. */
function isUnfinished({ node }: Credential): boolean {
  return node.kind === "code" ? node.digits === undefined : node.number === undefined && node.mark === undefined;
}
