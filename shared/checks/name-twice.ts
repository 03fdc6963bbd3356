/** One name for two things. */
import type { Place } from "../finding.ts";
import type { Site } from "../site/site.ts";
import { keypadsOf } from "../site/where.ts";
import type { Found } from "./check.ts";
import { check, mullion } from "./check.ts";
import { keypadsWithModel, orNone } from "./touched.ts";

type Doubled = Site["doubled"][number];

interface Twice extends Found {
  readonly what: Doubled["what"];
  readonly name: string;
}

export const nameTwice = check({
  code: "name-twice",
  severity: "error",
  explain: {
    what: "Two holders, keypads, models, records, doors, or two codes or tags of one holder, with one name.",
    why: "An entry says a name; when two things have it, nobody can tell which of them is meant. The first is read, the second is not.",
    triggers: mullion`
      holder u1 "Unit 1" code 4829
      holder u1 "Unit 2" code 5591
           //^^ name-twice

      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Gate" {
          1 u1
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
  *find(site): Iterable<Twice> {
    for (const { what, name, first, again } of site.doubled) {
      const related = [{ ...first, message: what === "site" ? "the site is named here" : "the first one, which is read" }];
      yield { ...again, what, name, related, keypads: touched(site, what, name, first) };
    }
  },
  message: ({ what, name }) => {
    switch (what) {
      case "site":
        return "the site is already named; another site's file is not used, but what both need in a file of its own";
      case "policy":
        return "the rules of this site are already stated";
      case "fitted":
        return `what ${name} holds is already recorded`;
      case "code":
      case "tag":
        return name === ""
          ? `this holder already has a ${what} without a name; give this one a name`
          : `this holder already has a code or tag called ${name}`;
      case "door":
        return `there is already a door "${name}"`;
      default:
        return `there is already a ${what} called ${name}`;
    }
  },
});

function touched(site: Site, what: Doubled["what"], name: string, first: Place): readonly string[] {
  switch (what) {
    case "holder": {
      const holder = site.holders.get(name);
      return holder ? orNone(keypadsOf(site, holder)) : [];
    }
    case "keypad":
    case "fitted":
      return [name];
    case "model":
      return orNone(keypadsWithModel(site, name));
    case "code":
    case "tag": {
      const holder = [...site.holders.values()].find(
        one => one.file === first.file && one.node.start <= first.start && first.end <= one.node.end,
      );
      return holder ? orNone(keypadsOf(site, holder)) : [];
    }
    case "door":
    case "supply":
      return orNone([]);
    default:
      return [];
  }
}
