/** A code that gets into programming mode, or begins what does. */
import { encodeEnter, encodeOpen } from "../keypad/encode.ts";
import type { Digits, KeyGroup } from "../keypad/memory.ts";
import type { Model } from "../keypad/model.ts";
import type { HeldUse, Keypad } from "../site/site.ts";
import type { HeldAt } from "../site/where.ts";
import { heldEverywhere } from "../site/where.ts";
import type { Found } from "./check.ts";
import { at, check, mullion, only } from "./check.ts";
import { drawNew } from "./edits.ts";
import { placesByStored, wantedDoor, wantedOf } from "./wanted.ts";
import { credentialWords } from "./words.ts";

interface IsInstaller extends Found {
  readonly placed: HeldAt;
  /** The code is the installer code; or else what is keyed for it begins what enters programming mode. */
  readonly same: boolean;
}

export const codeIsInstaller = check({
  code: "code-is-installer",
  severity: "error",
  needsOpen: true,
  explain: {
    what: "A code in a slot, or used as an all-relay code, is the installer code or begins the string that enters programming mode.",
    why: "Its holder can program the keypad, or nobody can any more: where the keypad acts as soon as a code is complete, the string that enters is never finished.",
    triggers: mullion`
      holder u1 "Unit 1" code 4829
      holder u2 "Unit 2" code 6044

      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Gate" {
          1 u1
          2 u2
          //^^ code-is-installer
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
  *find(site): Iterable<IsInstaller> {
    const known = new Map<Keypad, Entering>();
    for (const placed of heldEverywhere(site)) {
      const { keypad, use, as } = placed;
      const { model } = keypad;
      const digits = use.credential?.digits;
      const installer = model && wantedOf(keypad, model).installer;
      if (as === "installer" || !model || digits === undefined || installer === undefined) continue;
      const entering = known.get(keypad) ?? enteringOf(keypad, model, installer);
      known.set(keypad, entering);
      const same = digits === installer;
      if (!same && entering.blocker !== use && !begins(entering.presses, model, as, digits)) continue;
      const fact = keypad.installer?.node;
      const related = fact ? [{ ...at(keypad.file, fact), message: "the installer code" }] : [];
      yield { ...at(use.file, use.node), ...only(keypad), related, placed, same };
    }
  },
  message: ({ placed, same }) => {
    const what = placed.use.credential ? credentialWords(placed.use.credential) : "this";
    const where = placed.keypad.label;
    if (same) return `${what} is the installer code of ${where}`;
    return `with ${what} nobody gets into programming mode at ${where}: it is complete before the installer code is`;
  },
  fixes: ({ placed }) => drawNew(placed.use.credential),
});

interface Entering {
  readonly presses: readonly string[];
  /** What the keypad hears instead, wherever in the string that stands. */
  readonly blocker?: HeldUse;
}

function enteringOf(keypad: Keypad, model: Model, installer: Digits): Entering {
  const presses = pressesOf(encodeEnter(model, installer));
  const stored = wantedDoor(keypad, model).blocksEnter;
  const blocker = stored && placesByStored(keypad, model)(stored)?.use;
  return { presses, ...(blocker ? { blocker } : {}) };
}

function begins(enter: readonly string[], model: Model, as: HeldAt["as"], code: Digits): boolean {
  const isBeginning = (keyed: readonly string[]) =>
    keyed.length > 0 && keyed.length <= enter.length && keyed.every((key, index) => key === enter[index]);
  // Most codes begin with another key than what enters does, and need not be keyed to see it.
  const first = model.operations.get("open code")?.template[0];
  if (as === "slot" && first?.kind === "field" && first.name.text === "code" && code[0] !== enter[0]) return false;
  if (as === "slot") return isBeginning(pressesOf(encodeOpen(model, "open code", { code })));
  return model.relayNumbers.some(number => isBeginning(pressesOf(encodeOpen(model, "open all-relay", { code, relay: String(number) }))));
}

/** Presses as they are, an action of the hand as one that no press equals. */
function pressesOf(groups: readonly KeyGroup[]): readonly string[] {
  return groups.flatMap(group => group.acts.map(act => ("press" in act ? act.press : `[${act.hand}]`)));
}
