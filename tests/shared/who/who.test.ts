import { describe, expect, test } from "vitest";
import { whoTable } from "../../../shared/who/table.ts";
import { narrowed, waysIn } from "../../../shared/who/who.ts";
import { mullion, siteOf, today } from "../../support/fixture.ts";

const model = `
      model two "Two relays" {
        keys 0..9 * # A
        relays 1 = 1, 2 = 2
        slots 1..3 per relay
        codes 4..6 digits
        length free
        lockout 5 tries 60s
        enter * {installer} #
        put code 1 {relay} {slot} {code} #
        put tag 2 {relay} {slot} [present tag] #
        clear slot 3 {relay} {slot} #
        set all-relay 4 {code} #
        clear all-relay 5 #
        open code {code}
        open all-relay {relay-number} A {code}
        open tag [present tag]
        factory { installer code 9753 }
      }
`;

const tableOf = (text: string) => {
  const site = siteOf(text);
  return whoTable(site, waysIn(site, today), today);
};
const rows = (text: string) => tableOf(text).rows.map(({ cells }) => cells.join(" | "));

test("codes, tags and the all-relay code at each door, now and after the next visit", () => {
  expect(
    rows(mullion`
      ${model}
      holder mgr "Manager" code 918274
      holder u1 "Unit 1" code 4829 tag 8061261
      holder u2 "Unit 2" code porch 5591
      holder cln "Cleaner" until 2026-10-31 code 7305
      keypad gate "Lane gate" : two {
        installer code 6044
        all-relay code mgr
        relay 1 "Foot gate" {
          1 u1
          2 u1.tag
          3 cln
        }
        relay 2 "Porch" {
          1 u2.porch
        }
      }
      fitted gate 2026-11-20 {
        model two
        installer code 6044
        relay 1 {
          1 code 4829
          2 code 2468
          3 code 7305
        }
      }
    `),
  ).toEqual([
    "Foot gate | Manager | all-relay code | Lane gate |  | no | opens",
    "Foot gate | Unit 1 | code | Lane gate |  | opens | opens",
    "Foot gate | Unit 1 | tag | Lane gate |  | no | opens",
    "Foot gate | Cleaner | code | Lane gate | 2026-10-31 | opens, though lapsed | opens, though lapsed",
    "Foot gate | nobody in the text | code | Lane gate |  | opens | no",
    "Porch | Manager | all-relay code | Lane gate |  | no | opens",
    'Porch | Unit 2 | code "porch" | Lane gate |  | no | opens',
  ]);
});

test("a shadowed code opens nothing, and a relay without a wire is no door", () => {
  expect(
    rows(mullion`
      ${model.replace("open code", "acts at once\n        open code")}
      holder u1 "Unit 1" code 4829
      holder u2 "Unit 2" code 48291
      keypad gate "Lane gate" : two {
        installer code 6044
        relay 1 "Foot gate" {
          1 u1
          2 u2
        }
        relay 2 spare
      }
    `),
  ).toEqual(["Foot gate | Unit 1 | code | Lane gate |  | no | opens"]);
});

test("what nobody knows is said to be unknown", () => {
  expect(
    rows(mullion`
      ${model}
      holder u1 "Unit 1" code 4829
      keypad gate "Lane gate" : two {
        installer code 6044
        relay 1 "Foot gate" {
          1 u1
        }
        relay 2 spare
      }
      fitted gate unknown
    `),
  ).toEqual(["Foot gate | Unit 1 | code | Lane gate |  | not known | opens"]);
});

test("a place that nobody can tell the content of may hold what opens that door, and only that", () => {
  const text = (head: string, unknown: string) => mullion`
      ${model}
      holder u1 "Unit 1" code 4829
      holder u2 "Unit 2" code 7305
      holder u3 "Unit 3" code 6182
      keypad gate "Lane gate" : two {
        installer code 6044
        relay 1 "Foot gate" {
          1 u1
          2 u2
        }
        relay 2 "Porch" {
          1 u3
        }
      }
      fitted gate 2026-11-20 ${head} {
        model two
        installer code 6044
        relay 1 {
          1 code 4829
          ${unknown}
        }
      }
  `;
  const porch = (now: string) => `Porch | Unit 3 | code | Lane gate |  | ${now} | opens`;
  const gate = ["Foot gate | Unit 1 | code | Lane gate |  | opens | opens", "Foot gate | Unit 2 | code | Lane gate |  | not known | opens"];
  expect(rows(text("", "2 unknown"))).toEqual([...gate, porch("no")]);
  expect(rows(text("partly", ""))).toEqual([...gate, porch("not known")]);
  expect(tableOf(text("partly", "")).notes).toContain(
    "Not known: the record does not say all that a keypad holds, and more may open a door than is listed.",
  );
});

test("two holders with one code are both told, where the keypad takes it twice", () => {
  expect(
    rows(mullion`
      ${model.replace("length free", "length free twins all fire")}
      holder u1 "Unit 1" code 4829 tag 8061261
      holder u2 "Unit 2" code 4829
      holder u3 "Unit 3" tag 8061261
      keypad gate "Lane gate" : two {
        installer code 6044
        relay 1 "Foot gate" {
          1 u1
          2 u2
          3 u1.tag
        }
        relay 2 "Porch" {
          1 u3
        }
      }
      fitted gate 2026-11-20 {
        model two
        installer code 6044
        relay 1 {
          1 code 4829
        }
      }
    `),
  ).toEqual([
    "Foot gate | Unit 1 | code | Lane gate |  | opens | opens",
    "Foot gate | Unit 1 | tag | Lane gate |  | no | opens",
    "Foot gate | Unit 2 | code | Lane gate |  | opens | opens",
    "Foot gate | Unit 3 | tag | Lane gate |  | no | opens",
    "Porch | Unit 1 | tag | Lane gate |  | no | opens",
    "Porch | Unit 3 | tag | Lane gate |  | no | opens",
  ]);
});

describe("one door on two keypads", () => {
  const text = mullion`
      ${model}
      holder u1 "Unit 1" code 4829
      holder u2 "Unit 2" code 7305
      keypad front "Street side" : two {
        installer code 6044
        relay 1 "Foot gate" {
          1 u1
        }
        relay 2 spare
      }
      keypad back "Yard side" : two {
        installer code 6044
        relay 1 "Foot gate" {
          1 u1
          2 u2
        }
        relay 2 "Store" {
          1 u2
        }
      }
  `;

  test("stands together", () => {
    expect(rows(text)).toEqual([
      "Foot gate | Unit 1 | code | Street side |  | no | opens",
      "Foot gate | Unit 1 | code | Yard side |  | no | opens",
      "Foot gate | Unit 2 | code | Yard side |  | no | opens",
      "Store | Unit 2 | code | Yard side |  | no | opens",
    ]);
  });

  test("is asked for by its label, a holder by id", () => {
    const ways = waysIn(siteOf(text), today);
    expect(narrowed(ways, { door: "Store" }).map(({ holder }) => holder?.id)).toEqual(["u2"]);
    expect(narrowed(ways, { holder: "u1" }).map(({ keypad }) => keypad.id)).toEqual(["front", "back"]);
  });

  test("comes with the odds of a guess at each keypad", () => {
    expect(tableOf(text).odds).toEqual([
      "Street side: 1 code of 4 digits; a guess hits with odds of 1 in 2000 before it locks out.",
      "Yard side: 2 codes of 4 digits; a guess hits with odds of 1 in 1000 before it locks out.",
    ]);
  });
});

test("an all-relay code that is keyed with a relay or with a set of them is one way in at each door", () => {
  expect(
    rows(mullion`
      ${model.replace("2 = 2", "2 = 2, 1+2 = 3").replace("{relay-number} A", "{relay} A")}
      holder mgr "Manager" code 918274
      keypad gate "Lane gate" : two {
        installer code 6044
        all-relay code mgr
        relay 1 "Foot gate" no codes
        relay 2 "Porch" no codes
      }
    `),
  ).toEqual([
    "Foot gate | Manager | all-relay code | Lane gate |  | no | opens",
    "Porch | Manager | all-relay code | Lane gate |  | no | opens",
  ]);
});
