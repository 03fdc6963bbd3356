/** An installer code of a length that the keypad does not take. */
import { installerLengthsInForce } from "../keypad/lengths.ts";
import type { Model } from "../keypad/model.ts";
import type { Credential } from "../site/site.ts";
import type { Found } from "./check.ts";
import { at, check, mullion, only } from "./check.ts";
import { drawNew } from "./edits.ts";
import type { InRecord } from "./record.ts";
import { inRecords } from "./record.ts";
import { wantedOf } from "./wanted.ts";
import { digitsWords, lengthsWords } from "./words.ts";

interface WrongLength extends Found {
  readonly inRecord?: never;
  readonly model: Model;
  readonly takes: readonly number[];
  readonly count: number;
  readonly credential?: Credential;
}

export const installerLength = check({
  code: "installer-length",
  severity: "error",
  needsOpen: true,
  explain: {
    what: "An installer code of a length that the model does not take, or that is not the one in force.",
    why: "The keypad refuses it, or reads only its first digits, and nobody gets into programming mode with the code that the record says.",
    triggers: mullion`
      holder u1 "Unit 1" code 4829

      keypad gate "Gate" : tiny {
        installer code 60441
                     //^^^^^ installer-length
        relay 1 "Gate" {
          1 u1
        }
      }
    `,
    quiet: mullion`
      holder u1 "Unit 1" code 4829

      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Gate" {
          1 u1
        }
      }
    `,
  },
  *find(site): Iterable<WrongLength | InRecord> {
    for (const keypad of site.keypads.values()) {
      const { model, installer } = keypad;
      if (!model || installer?.digits === undefined) continue;
      const { codeLength } = wantedOf(keypad, model);
      const takes = installerLengthsInForce(model, codeLength === undefined ? {} : { codeLength });
      if (takes.includes(installer.digits.length)) continue;
      const credential = installer.held?.credential;
      const place = installer.node.digits ?? installer.node.held ?? installer.node;
      yield {
        ...at(keypad.file, place),
        ...only(keypad),
        model,
        takes,
        count: installer.digits.length,
        ...(credential ? { credential } : {}),
      };
    }
    yield* inRecords(site, "installer-length");
  },
  message: found => {
    if (found.inRecord) return found.inRecord.message;
    const rule = found.model.length === "set by entry" && !found.model.installerOwn ? ", the code length that is set" : "";
    return `the installer code has ${digitsWords(found.count)}; ${found.model.id} takes ${lengthsWords(found.takes)}${rule}`;
  },
  fixes: found => (found.inRecord ? [] : drawNew(found.credential)),
});
