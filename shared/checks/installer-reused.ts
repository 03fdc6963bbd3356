/** One installer code on two sites. */
import { at, check, mullion } from "./check.ts";

export const installerReused = check({
  code: "installer-reused",
  severity: "hint",
  needsOpen: true,
  explain: {
    what: "One installer code is used on two sites.",
    why: "Whoever learns it at one site can programme the keypads of the other. Many firms do this knowingly, so it is a hint, once for each code, at the installer line of the first path.",
    triggers: mullion`
      //- north.mullion
      site "North yard"
      keypad gate "North gate" : tiny {
        installer code 6044
      //^^^^^^^^^^^^^^^^^^^ installer-reused
        relay 1 "Gate" no codes
      }
      //- south.mullion
      site "South yard"
      keypad gate "South gate" : tiny {
        installer code 6044
        relay 1 "Gate" no codes
      }
    `,
    quiet: mullion`
      //- north.mullion
      site "North yard"
      keypad gate "North gate" : tiny {
        installer code 6044
        relay 1 "Gate" no codes
      }
      //- south.mullion
      site "South yard"
      keypad gate "South gate" : tiny {
        installer code 7053
        relay 1 "Gate" no codes
      }
    `,
  },
  // One site's keypads share their installer code as a rule; only over several sites is there something to say.
  find: () => [],
  message: () => "",
  across: {
    severity: "hint",
    *sees(site) {
      for (const keypad of site.keypads.values()) {
        const { installer } = keypad;
        if (installer?.digits !== undefined)
          yield { ...at(keypad.file, installer.node), key: installer.digits, who: keypad.label, keypads: [keypad.id] };
      }
    },
    message: (first, others) => `the installer code of ${first.who} opens programming at other sites too: ${others.join(", ")}`,
  },
});
