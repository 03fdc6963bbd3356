import { expect, test } from "vitest";
import { checkFindings, mullion } from "../../support/fixture.ts";

/** A site whose model lacks some of its entries. */
const site = (operations: string, rest: string) => mullion`
  model heron "One relay" {
    slots 1..3 per relay
    codes 4 digits
    rewrite replaces
    release 1s..9s
    enter * {installer} #
    leave * *
    put code 1 {slot} {code} #
    open code {code}
    open tag [present tag]
    ${operations}
    factory { installer code 9753 }
  }
  holder u1 "Unit 1" code 4829
  ${rest.includes("u2") ? `holder u2 "Unit 2" tag "red dot"` : ""}
  ${rest}
`;

test.each([
  [
    "a code length or a time that cannot be set",
    "set installer 4 {code} {code} #",
    'relay 1 "Gate" release 5s { 1 u1 }',
    'the release time of relay 1 cannot be changed: the keypad has no operation "set release"',
  ],
  [
    "a tag where tags cannot be written",
    "set installer 4 {code} {code} #",
    'relay 1 "Gate" { 1 u1 2 u2 }',
    "the model has no entry that writes a tag",
  ],
  [
    "a tag without a number where numbers are typed",
    "set installer 4 {code} {code} # put tag 2 {slot} {tag:8} #",
    'relay 1 "Gate" { 1 u1 2 u2 }',
    "put tag: the tag's number is not known",
  ],
])("factory-new: %s", (_, operations, relay, cannot) => {
  const [finding] = checkFindings(
    site(
      operations.split(" put ").join("\nput "),
      `keypad gate "Gate" : heron {\n     //^^^^ cannot-plan\n  installer code 6044\n  ${relay}\n}`,
    ),
  );
  expect(finding?.message).toContain(cannot);
  expect(finding?.keypads).toEqual(["gate"]);
});

test("a keypad of which nothing is known needs something that empties it", () => {
  const [finding] = checkFindings(
    site(
      "set installer 4 {code} {code} #",
      `keypad gate "Gate" : heron {\n     //^^^^ cannot-plan\n  installer code 6044\n  relay 1 "Gate" { 1 u1 }\n}\nfitted gate unknown`,
    ),
  );
  expect(finding?.message).toContain("the model has no entry that clears a place of which nobody knows what it holds");
  expect(finding?.message).toMatch(/, or add the missing entry or a reset that wipes everything to model heron where its manual has it$/);
});

test("what empties it may be an entry, or a reset by hand", () => {
  const rest = `keypad gate "Gate" : heron {\n  installer code 6044\n  relay 1 "Gate" { 1 u1 }\n}\nfitted gate unknown`;
  checkFindings(site("set installer 4 {code} {code} #\nclear all 70 #", rest));
  checkFindings(site("set installer 4 {code} {code} #\nclear slot 3 {slot} #", rest));
  checkFindings(site('set installer 4 {code} {code} #\nreset wipes everything "Bridge the pins"', rest));
});

test("what the text wants wrongly is said by other findings", () => {
  checkFindings(
    site(
      "set installer 4 {code} {code} #\nset release 5 {seconds} #",
      `keypad gate "Gate" : heron {\n  installer code 6044\n  relay 1 "Gate" release 12s { 1 u1 }\n               //^^^^^^^^^^^ setting-range\n}`,
    ),
  );
});
