import { describe, expect, test } from "vitest";
import { mullion, siteOf } from "../../support/fixture.ts";
import { two } from "../../support/models.ts";

/** What each entry of the first keypad means, in the order written. */
function meanings(text: string): readonly (readonly string[])[] {
  const [keypad] = [...siteOf(text).keypads.values()];
  return (keypad?.placements ?? []).map(({ held }) =>
    held.map(({ holder, credential }) => (credential ? `${credential.kind} ${credential.path}` : holder ? "missing" : "nobody")),
  );
}

describe("what an entry means", () => {
  test("the unnamed code, else the unnamed tag, else nothing", () => {
    expect(
      meanings(mullion`
        holder a "A" code 4829 tag 8061261
        holder b "B" tag 8061262
        holder c "C" code yard 5591
        keypad gate "Gate" : tiny {
          relay 1 { 1 a 2 b 3 c 4 a.tag 5 a.code 6 b.code 7 c.yard 8 c.tag 9 d }
        }
      `),
    ).toEqual([["code a"], ["tag b.tag"], ["missing"], ["tag a.tag"], ["code a"], ["missing"], ["code c.yard"], ["missing"], ["nobody"]]);
  });

  test("both halves of a pair, and names that are words of the language", () => {
    expect(
      meanings(mullion`
        holder code "Code" code 4829 tag tag2 8061261
        holder relay "Relay" code 5591
        keypad gate "Gate" : tiny {
          relay 1 {
            1 code or code.tag2
            2 relay.code
          }
        }
      `),
    ).toEqual([["code code", "tag code.tag2"], ["code relay"]]);
  });
});

test("tags are compared by value in all three spellings; a mark is a tag of its own", () => {
  const site = siteOf(mullion`
    holder a "A"
      tag x 8061262
      tag y 123,00334
      tag z 0x7b014e "blue fob"
      tag "red dot"
      tag far 0x1000000000000000
  `);
  expect(site.holders.get("a")?.credentials.map(({ tag }) => tag)).toEqual(["8061262", "8061262", "8061262", '"red dot"', undefined]);
});

test("the last day is the credential's own, or else its holder's", () => {
  const site = siteOf(mullion`
    holder cln "Cleaner"
      until 2027-03-31
      code 2640
      code yard 5591 until 2026-12-31
  `);
  expect(site.holders.get("cln")?.credentials.map(({ until }) => until)).toEqual(["2027-03-31", "2026-12-31"]);
});

test("a keypad's facts, its sets of relays in one spelling, its release times", () => {
  const site = siteOf(mullion`
    ${two}
    holder firm "Our own" code gate 6044
    keypad gate "Gate" : two {
      installer code firm.gate
      relay 02 "Back" release toggle { }
      relay 2+1 release 5s { }
    }
  `);
  const keypad = site.keypads.get("gate");
  expect(keypad?.installer?.digits).toBe("6044");
  expect(keypad?.relays.map(({ set, label, release }) => ({ set, label, release }))).toEqual([
    { set: "2", label: "Back", release: "toggle" },
    { set: "1+2", label: undefined, release: 5 },
  ]);
});

test("a record is read by the model that it names, else by the keypad's", () => {
  const site = siteOf(mullion`
    ${two}
    keypad gate "Gate" : two { }
    keypad back "Back" : two { }
    keypad side "Side" : two { }
    fitted gate 2026-11-20 partly {
      installer code 6044
      relay 2 { 01 code 4829 }
    }
    fitted back unknown
    fitted side 2026-11-20 {
      model one
      installer code 6044
    }
  `);
  expect(site.keypads.get("gate")?.fitted?.memory?.slots.get("2/1")?.code).toBe("4829");
  expect(site.keypads.get("gate")?.fitted?.knows).toBe("part");
  expect(site.keypads.get("back")?.fitted).toMatchObject({ knows: "nothing" });
  expect(site.keypads.get("back")?.fitted?.memory).toBeUndefined();
  expect(site.keypads.get("side")?.fitted?.memory).toBeUndefined();
});

test("the policy, and what stands in its place where it says nothing", () => {
  expect(siteOf("").policy).toEqual({ weakCodes: "warn", nearCodes: { verdict: "warn", places: 2 } });
  const { policy } = siteOf(mullion`
    policy {
      weak codes refuse
      near codes 3 digits
      guess odds 1 in 1000
    }
  `);
  expect(policy).toMatchObject({ weakCodes: "refuse", nearCodes: { verdict: "warn", places: 3 }, guessOdds: { oneIn: 1000 } });
});
