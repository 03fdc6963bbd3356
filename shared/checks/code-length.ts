/** A code of a length that the keypad does not take. */
import type { Model } from "../keypad/model.ts";
import type { Credential, HeldUse, Keypad } from "../site/site.ts";
import { heldEverywhere } from "../site/where.ts";
import type { Found } from "./check.ts";
import { at, check, mullion, only } from "./check.ts";
import { drawNew } from "./edits.ts";
import type { InRecord } from "./record.ts";
import { inRecords } from "./record.ts";
import { wantedLengths } from "./wanted.ts";
import { credentialWords, digitsWords, lengthsWords } from "./words.ts";

interface WrongLength extends Found {
  readonly inRecord?: never;
  readonly model: Model;
  readonly takes: readonly number[];
  /** Undefined for the keypad's own line `code length`. */
  readonly credential?: Credential;
  readonly count: number;
}

export const codeLength = check({
  code: "code-length",
  severity: "error",
  needsOpen: true,
  explain: {
    what: "A code of a length that the model does not take, or that is not the one in force.",
    why: "The keypad reads the first digits as the code and the rest as something else, or refuses the entry. Where the length follows the installer code, a new installer code changes what every other code must be.",
    triggers: mullion`
      holder u1 "Unit 1" code 4829
      holder u2 "Unit 2" code 55910

      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Gate" {
          1 u1
          2 u2
          //^^ code-length
        }
      }
    `,
    quiet: mullion`
      holder u1 "Unit 1" code 4829
      holder u2 "Unit 2" code 5591

      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Gate" {
          1 u1
          2 u2
        }
      }
    `,
  },
  *find(site): Iterable<WrongLength | InRecord> {
    for (const { keypad, use, as } of heldEverywhere(site)) {
      if (as === "installer" || !keypad.model || use.credential?.digits === undefined) continue;
      const wrong = wrongLength(keypad, keypad.model, use, use.credential);
      if (wrong) yield wrong;
    }
    for (const keypad of site.keypads.values()) {
      const model = keypad.model;
      const fact = keypad.node.facts.find(one => one.kind === "code-length");
      const digits = fact?.kind === "code-length" ? fact.digits : undefined;
      if (!model || !digits || keypad.codeLength === undefined) continue;
      const takes = model.length === "set by entry" ? model.codeLengths : [];
      if (!takes.includes(keypad.codeLength)) yield { ...at(keypad.file, digits), ...only(keypad), model, takes, count: keypad.codeLength };
    }
    yield* inRecords(site, "code-length");
  },
  message: found => {
    if (found.inRecord) return found.inRecord.message;
    const { model, takes, credential, count } = found;
    if (!credential) {
      return takes.length === 0
        ? `the code length of ${model.id} is not set by an entry`
        : `codes of ${model.id} have ${lengthsWords(takes)} digits`;
    }
    const rule = model.length === "follows installer code" && takes.length === 1 ? ", as many as its installer code" : "";
    const set = model.length === "set by entry" && takes.length === 1 ? ", the length that is set" : "";
    return `${credentialWords(credential)} has ${digitsWords(count)}; this keypad takes ${lengthsWords(takes)}${rule}${set}`;
  },
  fixes: found => (found.inRecord ? [] : drawNew(found.credential)),
});

function wrongLength(keypad: Keypad, model: Model, use: HeldUse, credential: Credential): WrongLength | undefined {
  const count = credential.digits?.length ?? 0;
  const takes = wantedLengths(keypad, model);
  if (takes.includes(count)) return undefined;
  const node = credential.node;
  const digits = node.kind === "code" ? node.digits : undefined;
  const related = [{ ...at(credential.file, digits ?? node), message: `${credentialWords(credential)}` }];
  return { ...at(use.file, use.node), ...only(keypad), related, model, takes, credential, count };
}
