/** A tag's number that does not fit into a tag. */

import { keypadIds, usesOf } from "../site/where.ts";
import type { TagProblem } from "../tags/spelling.ts";
import { mostTagBits, readTag } from "../tags/spelling.ts";
import type { Found } from "./check.ts";
import { at, check, mullion } from "./check.ts";
import type { InRecord } from "./record.ts";
import { inRecords } from "./record.ts";
import { orNone } from "./touched.ts";

interface Outside extends Found {
  readonly inRecord?: never;
  readonly problem: TagProblem;
  readonly bits: number;
  /** The model whose tags have so many bits; undefined where no tag has more. */
  readonly model?: string;
}

export const tagRange = check({
  code: "tag-range",
  severity: "error",
  needsOpen: true,
  explain: {
    what: "A tag's number has more bits than the tag, or cannot be read as a number.",
    why: "The number was misread or mistyped: no tag can have it, so that the record would not tell which tag opens the door. A tag of 24 bits goes to 16777215, to 255,65535, to 0xFFFFFF.",
    triggers: mullion`
      holder u1 "Unit 1" code 4829 tag 256,00334
                                     //^^^^^^^^^ tag-range

      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Gate" {
          1 u1
          2 u1.tag
        }
      }
    `,
    quiet: mullion`
      holder u1 "Unit 1" code 4829 tag 255,00334

      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Gate" {
          1 u1
          2 u1.tag
        }
      }
    `,
  },
  *find(site): Iterable<Outside | InRecord> {
    for (const holder of site.holders.values()) {
      for (const credential of holder.credentials) {
        const number = credential.node.kind === "tag" ? credential.node.number : undefined;
        if (!number) continue;
        const uses = usesOf(site, credential);
        const anyTag = readTag(number.text);
        if ("problem" in anyTag) {
          const keypads = orNone(keypadIds(uses));
          yield { ...at(credential.file, number), keypads, problem: anyTag.problem, bits: mostTagBits };
          continue;
        }
        const tooSmall = uses.filter(({ keypad }) => keypad.model && "problem" in readTag(number.text, keypad.model.tagBits));
        const model = tooSmall[0]?.keypad.model;
        if (!model) continue;
        const related = tooSmall.map(({ use, keypad }) => ({ ...at(use.file, use.node), message: `placed on ${keypad.label}` }));
        yield {
          ...at(credential.file, number),
          keypads: keypadIds(tooSmall),
          related,
          problem: "too-many-bits",
          bits: model.tagBits,
          model: model.id,
        };
      }
    }
    yield* inRecords(site, "tag-range");
  },
  message: found => {
    if (found.inRecord) return found.inRecord.message;
    if (found.problem === "not-a-tag") return "not the number of a tag: digits, facility,number or 0x and hexadecimal";
    if (found.problem === "number-range") return "the number after the comma is more than 65535";
    return `more than a tag's ${found.bits} bits${found.model === undefined ? "" : `, as ${found.model} reads them`}`;
  },
});
