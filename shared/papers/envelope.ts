/** The installer code of a keypad alone, for an envelope that is sealed. Nothing else that is secret is on it, and no address. */
import { hidden } from "../sheet/show.ts";
import { visible } from "../sheet/visible.ts";
import type { Keypad, Site } from "../site/site.ts";
import type { Paper, PaperKind, PaperOptions } from "./paper.ts";
import { statesOf } from "./places.ts";
import { siteWords } from "./words.ts";

export const envelope: PaperKind = {
  name: "envelope",
  make: (site, options) => (options.keypads ?? [...site.keypads.values()]).flatMap(keypad => envelopeOf(site, keypad, options) ?? []),
};

/** Undefined where neither the text nor a record has the code. */
function envelopeOf(site: Site, keypad: Keypad, { today, hideCodes }: PaperOptions): Paper | undefined {
  const states = statesOf(site, keypad);
  const code = keypad.installer?.digits ?? keypad.installer?.held?.credential?.digits ?? states?.after.installer;
  if (code === undefined) return undefined;
  const waiting = states !== undefined && states.before.installer !== code;
  return {
    file: `${keypad.id}-envelope`,
    title: "Installer code",
    site: siteWords(site),
    about: visible(keypad.label),
    date: today,
    parts: [
      {
        is: "code",
        label: `Installer code of ${visible(keypad.label)} (${keypad.id})`,
        text: hideCodes ? hidden.repeat(code.length) : code,
      },
      ...(waiting
        ? [
            {
              is: "caution",
              text: "Not typed yet when this was printed: until the next visit the keypad has another installer code.",
            } as const,
          ]
        : []),
      {
        is: "words",
        text: "Fold with this side inside, seal, and sign over the flap. Whoever opens it writes down when and why; then the code is changed.",
      },
      { is: "blanks", blanks: [{ label: "Kept by" }, { label: "Opened on" }, { label: "Opened by" }, { label: "Because" }] },
      { is: "signatures", names: ["Sealed by", "Signed over the flap", "Date"] },
    ],
  };
}
