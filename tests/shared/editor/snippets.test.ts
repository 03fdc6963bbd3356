/** Every declaration that is offered whole is good text once its places are filled in. */
import { expect, test } from "vitest";
import { parse } from "../../../grammar/parse.ts";
import { declarationSuggestions } from "../../../shared/editor/complete/declarations.ts";
import { mullion } from "../../support/fixture.ts";
import { siteOf } from "../sheet/wharf.ts";

/** What a person puts where the snippet itself suggests nothing: by its first word, place by place. */
const typed: Record<string, Record<string, string>> = {
  use: { 0: "holders.mullion" },
  holder: { 0: "48291" },
  keypad: { 4: "60441", 0: "01 u1" },
  site: { 2: "Slip Lane", 3: "Office" },
  model: { 9: "one beep", 11: "the lamp goes out", 13: "one beep", 15: "one beep", 0: "24680" },
  supply: { 0: '"Foot gate"' },
  door: { 0: "strike 12 V 350 mA fail-secure" },
};

function filled(snippet: string, words: Record<string, string>): string {
  return snippet.replace(
    /\\([\\$}])|\$\{(\d+)(?::((?:\\.|[^}])*)|\|([^,|]*)[^}]*)\}|\$(\d+)/g,
    (whole, sign, _order, shown, first, bare) => {
      if (bare !== undefined) return words[bare] ?? "";
      if (sign !== undefined) return sign;
      return shown?.replace(/\\([\\$}])/g, "$1") ?? first ?? whole;
    },
  );
}

const site = siteOf(mullion`
  keypad gate "Lane gate" : dunlin {
    relay 1 "Foot gate" { }
    relay 2 "Wharf $ door}" { }
  }
`);
const offered = declarationSuggestions(site);

test("a snippet for each kind of declaration", () => {
  const kinds = new Set(offered.map(({ label }) => label.split(" ")[0]));
  expect([...kinds].sort()).toEqual(["door", "fitted", "holder", "keypad", "model", "policy", "site", "supply", "use"]);
});

test.each(offered)("$label", ({ label, snippet }) => {
  const kind = label.split(" ")[0] ?? "";
  const text = filled(snippet ?? "", typed[kind] ?? {});
  const { tree, problems } = parse(text);
  expect(problems.map(({ message }) => `${message} in ${text}`)).toEqual([]);
  expect(tree.declarations.map(each => each.kind)).toEqual([kind]);
});
