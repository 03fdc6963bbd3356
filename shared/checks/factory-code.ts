/** A code that the keypad came with, still in use. */
import type { Span } from "../../grammar/tree.ts";
import type { Digits } from "../keypad/memory.ts";
import type { Model } from "../keypad/model.ts";
import type { Credential } from "../site/site.ts";
import { heldEverywhere } from "../site/where.ts";
import type { Found } from "./check.ts";
import { at, check, mullion, only } from "./check.ts";
import { drawNew } from "./edits.ts";
import { wantedOf } from "./wanted.ts";
import { credentialWords } from "./words.ts";

interface Factory extends Found {
  readonly what: string;
  readonly unsaid: boolean;
  readonly credential?: Credential;
}

export const factoryCode = check({
  code: "factory-code",
  severity: "error",
  needsOpen: true,
  explain: {
    what: "The installer code, or another code, is still one that the keypad came with.",
    why: "It stands in the manual that everybody can read: whoever has it can open the door, or program the keypad.",
    triggers: mullion`
      holder u1 "Unit 1" code 4829

      keypad gate "Gate" : tiny {
        installer code 3069
                     //^^^^ factory-code
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
  *find(site): Iterable<Factory> {
    for (const keypad of site.keypads.values()) {
      if (!keypad.model) continue;
      const { factory } = keypad.model;
      const installer = wantedOf(keypad, keypad.model).installer;
      if (installer === undefined || installer !== factory.installer) continue;
      const fact = keypad.installer?.node;
      // Half typed: nobody can say yet which code it will be.
      if (fact ? keypad.installer?.digits === undefined : !keypad.node.body) continue;
      const place: Span = fact?.digits ?? fact?.held ?? keypad.node.name ?? keypad.node.keyword;
      yield {
        ...at(keypad.file, place),
        ...only(keypad),
        what: "the installer code",
        unsaid: fact === undefined,
        ...given(keypad.installer?.held?.credential),
      };
    }
    for (const { keypad, use, as } of heldEverywhere(site)) {
      const digits = use.credential?.digits;
      if (as === "installer" || !keypad.model || !use.credential || digits === undefined) continue;
      if (!cameWith(keypad.model).has(digits)) continue;
      yield { ...at(use.file, use.node), ...only(keypad), what: credentialWords(use.credential), unsaid: false, ...given(use.credential) };
    }
  },
  message: ({ what, unsaid }) =>
    unsaid ? "no installer code is said, so that it is still the one the keypad came with" : `${what} is one that the keypad came with`,
  fixes: ({ credential }) => drawNew(credential),
});

const known = new WeakMap<Model, ReadonlySet<Digits>>();

function cameWith(model: Model): ReadonlySet<Digits> {
  const before = known.get(model);
  if (before) return before;
  const { installer, allRelay, slots } = model.factory;
  const codes = new Set([installer, ...[...allRelay.values()].map(one => one.code), ...[...slots.values()].map(slot => slot.code)]);
  const digits = new Set([...codes].filter(code => code !== undefined));
  known.set(model, digits);
  return digits;
}

function given(credential: Credential | undefined): { readonly credential?: Credential } {
  return credential ? { credential } : {};
}
