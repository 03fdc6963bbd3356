/** What can stand on its own in a text: whole declarations with places to fill in. */
import { quoted } from "../../quoted.ts";
import { labelled } from "../../sheet/visible.ts";
import type { Site } from "../../site/site.ts";
import type { Suggestion } from "./suggestion.ts";
import { choice, inSnippet, place } from "./suggestion.ts";

export function declarationSuggestions(site: Site): readonly Suggestion[] {
  const models = [...site.models.keys()];
  const model = models.length > 1 ? choice(3, models) : place(3, models[0] ?? "model");
  const written: (readonly [word: string, detail: string, snippet: string])[] = [
    ["use", "another file", 'use "$0"'],
    ["holder", "with a code", `holder ${place(1, "u1")} "${place(2, "Unit 1")}" code $0`],
    [
      "keypad",
      "with its relays",
      `keypad ${place(1, "gate")} "${place(2, "Gate")}" : ${model} {\n\tinstaller code $4\n\n\trelay 1 "${place(5, "Door")}" {\n\t\t$0\n\t}\n}`,
    ],
    ["site", "with its address", `site "${place(1, "Name")}" {\n\taddress "$2"\n\tcontact "$3"\n}$0`],
    ["model", "a kind of keypad, from its manual", modelText],
    ["policy", "the site's own rules", policyText],
    ["supply", "a power supply", supplyText],
    ["fitted", "what a keypad is known to hold", `fitted ${place(1, "gate")} unknown$0`],
  ];
  const has = { site: site.node !== undefined, policy: site.policy.node !== undefined };
  return [
    ...written
      .filter(([word]) => !(word in has && has[word as keyof typeof has]))
      .map(
        ([label, detail, snippet], index): Suggestion => ({
          kind: "snippet",
          label,
          detail,
          snippet,
          rank: 400 + index,
          about: { what: "word", name: label },
        }),
      ),
    ...doorSuggestions(site, true),
  ];
}

/** Doors that relays lead to and nobody has described. */
export function doorSuggestions(site: Site, whole: boolean): readonly Suggestion[] {
  const described = new Set(site.doors.map(({ node }) => node.label?.text));
  const labels = new Set([...site.keypads.values()].flatMap(({ relays }) => relays.flatMap(({ label }) => label ?? [])));
  return [...labels]
    .filter(label => !described.has(label))
    .map((label, index): Suggestion => {
      return {
        kind: "door",
        label: whole ? `door "${label}"` : `"${label}"`,
        detail: `not described yet: ${labelled(label)}`,
        snippet: `${whole ? "door " : ""}${inSnippet(quoted(label))} {\n\tlock $0\n}`,
        rank: 450 + index,
      };
    });
}

const policyText = `policy {
	weak codes   ${choice(1, ["warn", "refuse", "allow"])}
	near codes   ${place(2, "2")} digits
	guess odds   1 in ${place(3, "1000")}
}$0`;

const supplyText = `supply ${place(1, "cupboard")} "${place(2, "Riser cupboard")}" ${place(3, "13.8")} V ${place(4, "3")} A {
	battery ${place(5, "12")} V ${place(6, "7")} Ah for ${place(7, "4")} h
	feeds $0
}`;

const modelText = `model ${place(1, "name")} "${place(2, "What it is")}" {
	relays   1 = ${place(3, "1")}
	slots    ${place(4, "01..50")} per relay
	codes    ${place(5, "4")} digits
	rewrite  ${choice(6, ["replaces", "refused"])}
	twins    ${choice(7, ["refused", "first fires", "all fire"])}

	enter          ${place(8, "* {installer} #")}  shows "$9"
	leave          ${place(10, "* *")}  shows "$11"
	put code       ${place(12, "1 {slot} {code} #")}  shows "$13"
	clear slot     ${place(14, "2 {slot} #")}  shows "$15"
	open code      {code}

	factory {
		installer code $0
	}
}`;
