/** What the papers say of a keypad with a record: fitted or waiting, before and after, from when and until when. */
import { describe, expect, test } from "vitest";
import { handover } from "../../../shared/papers/handover.ts";
import type { Paper, PaperOptions, Part } from "../../../shared/papers/paper.ts";
import { register } from "../../../shared/papers/register.ts";
import { slips } from "../../../shared/papers/slips.ts";
import { visit } from "../../../shared/papers/visit.ts";
import type { Site } from "../../../shared/site/site.ts";
import { mullion } from "../../support/fixture.ts";
import { model, siteOf } from "../sheet/wharf.ts";

const text = mullion`
  site "Tannery Wharf" { address "Slip Lane" contact "Wharf office" }
  holder u1 "Unit 1" code 48291 tag 8061261 "blue fob"
  holder u2 "Unit 2" code 55910
  holder cln "Cleaner" until 2027-03-31 code 26409
  holder mgr "Wharf manager" code 91827
  holder old "Unit 9" code 73046
  keypad gate "Lane gate" : dunlin {
    installer code 60441
    all-relay code mgr
    setting "key light" 2
    relay 1 "Foot gate" release 5s { 01 u1 02 u2 04 cln 10 u1.tag }
    relay 2 "Vehicle gate" release 1s no codes
    relay 3 spare
  }
  door "Foot gate" {
    lock strike 12 V 350 mA fail-secure
    route escape
    near people
  }
`;
const recorded = (slots: string, date = "2026-11-20") => mullion`
  fitted gate ${date} {
    model dunlin
    installer code 60441
    all-relay code 91827
    setting "key light" 1
    relay 1 release 3s {
      ${slots}
    }
    relay 2 release 1s { }
  }
`;
const fitted = recorded(`01 code 48291
      02 code 11111
      03 code 73046`);

const options: PaperOptions = { today: "2026-11-25", hideCodes: false };
const site = siteOf(text + model + fitted);
const only = (made: readonly Paper[]): Paper => {
  const [paper, ...others] = made;
  if (!paper || others.length > 0) throw new Error(`${made.length} papers`);
  return paper;
};
const all = <Is extends Part["is"]>(paper: Paper, is: Is) =>
  paper.parts.filter((part): part is Extract<Part, { is: Is }> => part.is === is);

describe("the register", () => {
  const paper = only(register.make(site, options));

  test("says of each place whether it is fitted, waiting, or to be taken out", () => {
    expect(all(paper, "table").flatMap(({ rows }) => rows.map(row => row.join(" | ")))).toEqual([
      "every door |  | Wharf manager | code | fitted 2026-11-20",
      "Foot gate | 01 | Unit 1 | code | fitted 2026-11-20",
      "Foot gate | 02 | Unit 2 | code | waiting; now another code",
      "Foot gate | 04 | Cleaner | code | waiting",
      "Foot gate | 10 | Unit 1 | tag 8061261 (blue fob) | waiting",
      "Foot gate | 03 | Unit 9 | code | fitted, waiting to be taken out",
    ]);
    expect(all(paper, "words").map(words => words.text)).toContain(
      "Model Three-relay keypad, numbered slots. Recorded 2026-11-20. 4 places are waiting for a visit.",
    );
  });

  test("does not list the thousand places of which nobody knows anything", () => {
    const unknown = only(register.make(siteOf(`${text}${model}fitted gate unknown\n`), options));
    expect(all(unknown, "table").flatMap(({ rows }) => rows.map(row => row[4]))).toEqual(Array(5).fill("waiting"));
    expect(all(unknown, "words").map(words => words.text)).toContain(
      "Model Three-relay keypad, numbered slots. Nobody can say what it holds. 5 places are waiting for a visit.",
    );
  });
});

describe("the note of a visit", () => {
  const sentences = (paper: Paper) => all(paper, "list").flatMap(({ items }) => items);

  test("that is to come", () => {
    expect(sentences(only(visit.make(site, options)))).toEqual([
      "Unit 2's code goes into slot 02 of Foot gate in place of another code.",
      "Cleaner's code goes into slot 04 of Foot gate.",
      "Unit 1's tag (blue fob) goes into slot 10 of Foot gate.",
      "Unit 9's code comes out of slot 03 of Foot gate.",
      "Foot gate stays open for 5 s, before: 3 s.",
      'Setting "key light" goes from 1 to 2.',
      "Unit 2 opens Foot gate.",
      "Cleaner opens Foot gate.",
      "Unit 9 no longer opens Foot gate.",
    ]);
  });

  test("that is over: from an earlier record to the one that stands", () => {
    const earlier: Site = siteOf(text + model + recorded("01 code 48291", "2026-10-01"));
    const paper = only(visit.make(site, { ...options, earlier }));
    expect(sentences(paper)).toEqual([
      "Another code went into slot 02 of Foot gate.",
      "Unit 9's code went into slot 03 of Foot gate.",
      "Unit 9 opens Foot gate.",
    ]);
    expect(all(paper, "words").map(words => words.text)).toContain("Recorded 2026-10-01. Places taken: 2 before, 4 after.");
  });

  test("that changes nothing", () => {
    const paper = only(visit.make(site, { ...options, earlier: site }));
    expect(sentences(paper)).toEqual([]);
    expect(all(paper, "words").map(words => words.text)).toContain("Nothing changed at this keypad.");
  });
});

describe("a slip", () => {
  const slipOf = (id: string, of = site) => only(slips.make(of, { ...options, holders: [id] }));
  const ways = (paper: Paper) =>
    all(paper, "way").map(({ door, keys, says }) => [door, keys.map(group => group.text).join(" "), ...says].join(" | "));

  test("says from when and until when each thing opens, and whom to call", () => {
    expect(ways(slipOf("u1"))).toEqual([
      "Foot gate, at the keypad Lane gate | 48291 | Opens now, fitted 2026-11-20. | Stays open 5 s.",
      "Foot gate, at the keypad Lane gate | [present tag 8061261] | From the next visit on; until then it opens nothing. | Stays open 5 s.",
    ]);
    expect(ways(slipOf("cln"))).toEqual([
      "Foot gate, at the keypad Lane gate | 26409 | From the next visit on; until then it opens nothing. | It is meant until 2027-03-31, that day included. | Stays open 5 s.",
    ]);
    expect(all(slipOf("u1"), "words").at(-1)?.text).toBe("If a door does not open, or a tag is lost: Wharf office.");
  });

  test("does not say that nothing opens yet where a place is of unknown content", () => {
    const unsure = "From the next visit on; whether it opens now is not known.";
    for (const record of [recorded("04 unknown"), recorded("01 code 48291", "2026-11-20 partly"), "fitted gate unknown"])
      expect(ways(slipOf("cln", siteOf(`${text}${model}${record}`)))[0]).toContain(unsure);
  });

  test("tells whoever is taken out until when it opens", () => {
    expect(ways(slipOf("old"))[0]).toContain("Until the next visit; after it, this opens nothing.");
  });

  test("of an all-relay code has one way for each door", () => {
    expect(ways(slipOf("mgr")).map(way => way.split(" | ").slice(0, 2))).toEqual([
      ["Foot gate, at the keypad Lane gate", "1 B 91827"],
      ["Vehicle gate, at the keypad Lane gate", "2 B 91827"],
    ]);
  });

  test("warns once of moving parts beside the keypad", () => {
    expect(all(slipOf("u1"), "caution").map(({ text: said }) => said)).toEqual([
      "Foot gate: moving parts within reach of the keypad. Stand clear before you key.",
    ]);
    expect(all(slipOf("mgr"), "caution")).toHaveLength(1);
  });

  test("whose holder is named by a code does not carry it in its file's name", () => {
    const odd = siteOf(text.replaceAll("u2", "u55910") + model);
    expect(slipOf("u55910", odd).file).toBe("slip-2");
    expect(slipOf("u1", odd).file).toBe("slip-u1");
  });
});

describe("the handover", () => {
  const paper = only(handover.make(site, options));

  test("what is meant by an escape route and by a fire alarm cannot be read another way", () => {
    const alarmed = only(handover.make(siteOf(`${text.replace("near people", "release on alarm")}\n${model}`), options));
    const said = JSON.stringify(alarmed.parts);
    expect(said).toContain("leaving must take no code, no tag and no power");
    expect(said).toContain('["Fire alarm","cuts the power of the lock"]');
  });

  test("has a page for each door that something is wired to", () => {
    expect(all(paper, "heading").flatMap(({ text: said }) => (said.startsWith("Door: ") ? [said] : []))).toEqual([
      "Door: Foot gate",
      "Door: Vehicle gate",
    ]);
    expect(all(paper, "page")).toHaveLength(2);
  });

  test("says what the text says of a door, and asks for the rest", () => {
    expect(all(paper, "facts")[1]?.facts).toEqual([
      ["Released by", "Lane gate, relay 1"],
      ["Stays open", "5 s"],
      ["Lock", "strike 12 V 350 mA fail-secure"],
      ["Route", "escape"],
      ["Without power", "locked from outside"],
    ]);
    const labels = all(paper, "blanks").map(({ blanks }) => blanks.map(({ label }) => label));
    expect(labels[0]).not.toContain("Without power the door is");
    expect(labels[1]).toContain("Without power the door is");
    expect(labels[1]).toContain("Escape route or fire door");
  });

  test("gives each caution once, and says who decides", () => {
    const said = all(paper, "caution").map(({ text: words }) => words);
    expect(said).toHaveLength(3);
    expect(said[1]).toMatch(/^Escape route: /);
    expect(said[2]).toMatch(/^Moving parts .* competent person decide\.$/);
  });
});

describe("a place that nobody wants, and of which nobody can say what it holds", () => {
  const doubtful = siteOf(
    text +
      model +
      recorded(`01 code 48291
      05 unknown`),
  );

  test("stands in the register, and in the note of the visit", () => {
    const rows = all(only(register.make(doubtful, options)), "table").flatMap(table => table.rows);
    expect(rows).toContainEqual(["Foot gate", "05", "nobody can say", "", "what is there now is not known, waiting to be taken out"]);
    const items = all(only(visit.make(doubtful, options)), "list").flatMap(list => list.items);
    expect(items).toContain("What nobody can name comes out of slot 05 of Foot gate.");
  });
});
