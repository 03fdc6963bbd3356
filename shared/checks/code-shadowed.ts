/** A code that the keypad never hears to its end, because a shorter string that it acts on is its beginning. */
import type { RelaySet } from "../keypad/model.ts";
import type { Stored } from "../keypad/open-strings.ts";
import type { Keypad } from "../site/site.ts";
import type { Found } from "./check.ts";
import { at, check, mullion, only } from "./check.ts";
import { drawNew } from "./edits.ts";
import type { PlacedAt } from "./wanted.ts";
import { placesByStored, wantedDoor } from "./wanted.ts";
import { credentialWords, placeWords } from "./words.ts";

interface Shadowed extends Found {
  readonly loser: PlacedAt;
  /** Undefined where the string that enters programming mode comes first. */
  readonly winner?: PlacedAt;
  /** For an all-relay code: the relays with which it is lost. */
  readonly relays: readonly RelaySet[];
}

export const codeShadowed = check({
  code: "code-shadowed",
  severity: "error",
  needsOpen: true,
  explain: {
    what: "The keypad acts before this code is complete, because a shorter string that it accepts is its beginning.",
    why: "Its holder keys the code, and another's door opens after the first digits. Found with the keypad's own rules for everyday use, all that is stored taken together.",
    triggers: mullion`
      model wader "Free length, acts at once" {
        relays 1 = 1
        slots 1..9 per relay
        codes 4..6 digits
        length free
        acts at once
        enter * {installer} #
        leave * *
        put code 1 {slot} {code} #
        clear slot 3 {slot} #
        set installer 4 {code} #
        open code {code}
        factory { installer code 9753 }
      }

      holder u1 "Unit 1" code 4829
      holder u2 "Unit 2" code 482961
      keypad gate "Gate" : wader {
        installer code 6044
        relay 1 "Gate" {
          1 u1
          2 u2
          //^^ code-shadowed
        }
      }
    `,
    quiet: mullion`
      model wader "Free length, acts after a pause" {
        relays 1 = 1
        slots 1..9 per relay
        codes 4..6 digits
        length free
        acts after a pause
        enter * {installer} #
        leave * *
        put code 1 {slot} {code} #
        clear slot 3 {slot} #
        set installer 4 {code} #
        open code {code}
        factory { installer code 9753 }
      }

      holder u1 "Unit 1" code 4829
      holder u2 "Unit 2" code 482961
      keypad gate "Gate" : wader {
        installer code 6044
        relay 1 "Gate" {
          1 u1
          2 u2
        }
      }
    `,
  },
  *find(site): Iterable<Shadowed> {
    for (const keypad of site.keypads.values()) yield* shadowedOn(keypad);
  },
  message: ({ loser, winner, relays }) => {
    const what = loser.use.credential ? credentialWords(loser.use.credential) : "this";
    const lost = relays.length > 0 ? `${what}, keyed for relay ${relays.join(", ")},` : what;
    if (!winner) return `${lost} never fires: what enters programming mode is its beginning`;
    const other = winner.use.credential ? credentialWords(winner.use.credential) : "another code";
    const where = "placement" in winner ? placeWords(winner.placement) : "the all-relay code";
    return `${lost} never fires: ${other} (${where}) is complete before it`;
  },
  fixes: ({ loser, winner }) => [...drawNew(loser.use.credential), ...drawNew(winner?.use.credential)],
});

function* shadowedOn(keypad: Keypad): Iterable<Shadowed> {
  const model = keypad.model;
  if (!model) return;
  const asleep = wantedDoor(keypad, model).asleep.filter(one => one.why === "shadowed");
  if (asleep.length === 0) return;
  const placeOf = placesByStored(keypad, model);
  const byLoser = new Map<PlacedAt, { readonly by: Stored | undefined; readonly relays: RelaySet[] }>();
  for (const { stored, by } of asleep) {
    const loser = placeOf(stored);
    if (!loser) continue;
    const known = byLoser.get(loser) ?? { by, relays: [] };
    byLoser.set(loser, known);
    if (stored.is === "all-relay") known.relays.push(stored.relay);
  }
  for (const [loser, { by, relays }] of byLoser) {
    const winner = by && placeOf(by);
    const fact = keypad.installer?.node;
    const related = winner
      ? [{ ...at(winner.use.file, winner.use.node), message: "complete before it" }]
      : fact
        ? [{ ...at(keypad.file, fact), message: "the installer code" }]
        : [];
    yield { ...at(loser.use.file, loser.use.node), ...only(keypad), related, loser, relays, ...(winner ? { winner } : {}) };
  }
}
