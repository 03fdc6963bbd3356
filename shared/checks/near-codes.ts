/** Codes that a slip of the finger turns into one another, and that open different doors. */
import type { LiveCode } from "../codes/live.ts";
import { liveCodes } from "../codes/live.ts";
import { nearPairs, placesApart } from "../codes/near.ts";
import type { Credential, Keypad } from "../site/site.ts";
import type { Found } from "./check.ts";
import { at, check, mullion, only } from "./check.ts";
import { verdictSeverity } from "./verdict.ts";
import { credentialWords } from "./words.ts";

type Near = Found & { readonly keypad: Keypad; readonly places: number } & (
    | { readonly is: "pair"; readonly one: Credential; readonly other: Credential; readonly apart: number }
    | { readonly is: "fitted"; readonly credentials: readonly Credential[] }
  );

export const nearCodes = check({
  code: "near-codes",
  severity: "warning",
  exceptions: "error or nothing by policy; a hint, one line a keypad, between codes that are fitted already",
  needsOpen: true,
  explain: {
    what: "Two codes that open different doors of one keypad and differ in too few digits.",
    why:
      "One mistyped digit opens somebody else's door. Codes that differ in two places catch every single mistyped digit; at most a tenth of all codes can stand so (the Singleton bound, 10^(n-1) codes of n digits). " +
      "`policy { near codes 3 digits }` asks for more, `near codes allow` silences it. Two places unless said is our choice.",
    triggers: mullion`
      model two "Two relays" {
        relays 1 = 1, 2 = 2
        slots 1..3 per relay
        codes 4 digits
        enter * {installer} #
        put code 1 {relay} {slot} {code} #
        clear slot 2 {relay} {slot} #
        set installer 4 {code} {code} #
        open code {code}
        factory { installer code 9753 }
      }
      holder u1 "Unit 1" code 4829
      holder u2 "Unit 2" code 4819
        //                    ^^^^ near-codes

      keypad gate "Gate" : two {
        installer code 6044
        relay 1 "Foot gate" {
          1 u1
        }
        relay 2 "Vehicle gate" {
          1 u2
        }
      }
    `,
    quiet: mullion`
      holder u1 "Unit 1" code 4829
      holder u2 "Unit 2" code 4819

      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Foot gate" {
          1 u1
          2 u2
        }
      }
    `,
  },
  *find(site): Iterable<Near> {
    const { verdict, places } = site.policy.nearCodes;
    const severity = verdictSeverity(verdict);
    if (!severity) return;
    const said = new Map<Credential, Set<Credential>>();
    for (const keypad of site.keypads.values()) {
      const live = liveCodes(keypad);
      const fitted = new Set<Credential>();
      for (const [one, other] of nearPairs(live, places)) {
        const [first, later] = inTextOrder(live[one], live[other]);
        if (!first || !later?.credential.node.digits || first.credential === later.credential) continue;
        if (first.fitted && later.fitted) {
          fitted.add(first.credential).add(later.credential);
          continue;
        }
        const before = said.get(later.credential) ?? new Set();
        said.set(later.credential, before);
        if (before.has(first.credential)) continue;
        before.add(first.credential);
        yield {
          ...at(later.credential.file, later.credential.node.digits),
          ...only(keypad),
          severity,
          related: [
            {
              ...at(first.credential.file, first.credential.node.digits ?? first.credential.node),
              message: credentialWords(first.credential),
            },
          ],
          is: "pair",
          keypad,
          places,
          one: first.credential,
          other: later.credential,
          apart: placesApart(first.digits, later.digits),
        };
      }
      if (fitted.size > 0) {
        yield {
          ...at(keypad.file, keypad.node.name ?? keypad.node.keyword),
          ...only(keypad),
          severity: "hint",
          is: "fitted",
          keypad,
          places,
          credentials: [...fitted],
        };
      }
    }
  },
  message: found =>
    found.is === "pair"
      ? `${credentialWords(found.other)} and ${credentialWords(found.one)} open different doors of ${found.keypad.label} and differ in ${found.apart === 1 ? "one digit" : `${found.apart} digits`} only; ${found.places} are wanted`
      : `fewer than ${found.places} digits apart, and fitted at ${found.keypad.label} already: ${found.credentials.map(credentialWords).join(", ")}`,
  fixes: found =>
    found.is === "pair" ? [{ title: `Draw a new code for ${found.other.holder.label}`, edits: [], draws: found.other.path }] : [],
});

type WithDigits = LiveCode & { readonly credential: Credential & { readonly node: { readonly kind: "code" } } };

function inTextOrder(one: LiveCode | undefined, other: LiveCode | undefined): readonly [WithDigits | undefined, WithDigits | undefined] {
  const both = [one, other].filter((code): code is WithDigits => code?.credential.node.kind === "code");
  both.sort((a, b) => (a.credential.file === b.credential.file ? a.credential.node.start - b.credential.node.start : 0));
  return [both[0], both[1]];
}
