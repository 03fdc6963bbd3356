/** A code that is guessed first: a run, a repeat, a date, a line on the pad, one of the most used. */
import { fittedCodes } from "../codes/live.ts";
import type { WeakKind } from "../codes/weak.ts";
import { weakness, weakWords } from "../codes/weak.ts";
import type { Credential, Keypad } from "../site/site.ts";
import { usesOf } from "../site/where.ts";
import type { Found } from "./check.ts";
import { at, check, mullion, only } from "./check.ts";
import { verdictSeverity } from "./verdict.ts";
import { credentialWords } from "./words.ts";

type Weak = Found &
  (
    | { readonly is: "code"; readonly whose: string; readonly kind: WeakKind; readonly credential?: Credential }
    | { readonly is: "fitted"; readonly keypad: Keypad; readonly credentials: readonly Credential[] }
  );

export const weakCode = check({
  code: "weak-code",
  severity: "warning",
  exceptions: "error or nothing by policy; a hint, one line a keypad, for codes that are fitted already",
  needsOpen: true,
  explain: {
    what: "A code that is easily guessed.",
    why:
      "Whoever tries a few codes tries these first: four digits alone, the twenty most used codes were 26.8 % of 3.4 million (DataGenetics, 3 September 2012). " +
      "Flagged are repeats, runs, years, dates (day-month and month-day; with a year from six digits on), mirrored and doubled groups, lines and corners of the 3 × 4 pad (ITU-T E.161), and that published list. " +
      "NIST SP 800-63B, 5.1.1.2, asks that such codes be refused and the reason be given; which shapes to take is our choice. `policy { weak codes refuse }` makes it an error, `allow` silences it.",
    triggers: mullion`
      holder u1 "Unit 1" code 1987
        //                    ^^^^ weak-code

      keypad gate "Gate" : tiny {
        installer code 6044
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
  *find(site): Iterable<Weak> {
    const severity = verdictSeverity(site.policy.weakCodes);
    if (!severity) return;
    const fitted = new Map<Keypad, Credential[]>();
    for (const holder of site.holders.values()) {
      for (const credential of holder.credentials) {
        if (credential.node.kind !== "code" || credential.digits === undefined || !credential.node.digits) continue;
        const kind = weakness(credential.digits);
        if (!kind) continue;
        const uses = usesOf(site, credential);
        const there = uses.filter(({ keypad }) => isFitted(keypad, credential.digits));
        if (uses.length > 0 && there.length === uses.length) {
          for (const keypad of new Set(there.map(use => use.keypad))) fitted.set(keypad, [...(fitted.get(keypad) ?? []), credential]);
          continue;
        }
        const keypads = [...new Set(uses.map(({ keypad }) => keypad.id))];
        yield {
          ...at(credential.file, credential.node.digits),
          severity,
          keypads,
          is: "code",
          whose: credentialWords(credential),
          kind,
          credential,
        };
      }
    }
    for (const keypad of site.keypads.values()) {
      const { installer, node } = keypad;
      const kind = installer?.node.digits && installer.digits !== undefined ? weakness(installer.digits) : undefined;
      if (kind && installer?.node.digits && keypad.fitted?.memory?.installer !== installer.digits) {
        yield {
          ...at(keypad.file, installer.node.digits),
          ...only(keypad),
          severity,
          is: "code",
          whose: `the installer code of ${keypad.label}`,
          kind,
        };
      }
      const credentials = fitted.get(keypad);
      if (credentials) {
        yield { ...at(keypad.file, node.name ?? node.keyword), ...only(keypad), severity: "hint", is: "fitted", keypad, credentials };
      }
    }
  },
  message: found =>
    found.is === "code"
      ? `${found.whose} is easily guessed: it ${weakWords[found.kind]}`
      : `easily guessed, and fitted at ${found.keypad.label} already: ${found.credentials.map(credentialWords).join(", ")}`,
  fixes: found => (found.is === "code" && found.credential ? [drawNew(found.credential)] : []),
});

function isFitted(keypad: Keypad, digits: string | undefined): boolean {
  return digits !== undefined && (fittedCodes(keypad).has(digits) || keypad.fitted?.memory?.installer === digits);
}

function drawNew(credential: Credential) {
  return { title: `Draw a new code for ${credential.holder.label}`, edits: [], draws: credential.path };
}
