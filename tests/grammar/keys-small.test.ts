/** Slips of whoever writes a first model: keys in small letters, and lengths as one would say them. */
import { expect, it } from "vitest";
import { parse, parseKeys } from "../../grammar/parse.ts";

const messages = (fact: string) => parse(`model m "M" {\n  ${fact}\n}\n`).problems.map(({ message }) => message);

it.each([
  ["keys 0..9 ok", "a key is written in capitals: `OK`"],
  ["put code 1 {slot} {code} Ok", "a key is written in capitals: `OK`"],
  ["slots 1..9 sharde", undefined],
  ["kees 0..9", "did you mean `keys`?"],
  ["nothing of it", undefined],
])("%s", (fact, guess) => {
  expect(messages(fact).map(message => message.split("; ")[1])).toEqual([guess]);
});

it("keys that are typed at the simulated keypad", () => {
  expect(parseKeys("OK 24680 ok").problems.map(({ message }) => message)).toEqual([
    "expected keys (digits, `*`, `#`, a word in capitals, a field in `{…}`, an action in `[…]`), found `ok`; a key is written in capitals: `OK`",
  ]);
});

it("lengths may be alternatives or a range", () => {
  expect(messages("codes 4 or 6 digits")).toEqual(["expected `digits`, or `|` or `..` and another number, after the number, found `or`"]);
  expect(messages("codes 4 | 6")).toEqual(["expected `digits` after the number, found `}`"]);
});
