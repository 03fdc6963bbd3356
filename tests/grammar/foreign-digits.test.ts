/** Digits that are none: those of another script and letters that look like them are told for what they are, and never repeated. */
import { describe, expect, it } from "vitest";
import { parse } from "../../grammar/parse.ts";

const messages = (text: string) => parse(text).problems.map(({ message }) => message);

describe("digits other than 0 to 9", () => {
  it.each(["４８２９１", "٤٨٢٩١", "৪৮২৯১"])("%#: stand in no message", digits => {
    for (const text of [
      `holder u1 "A" code ${digits}`,
      `holder u1 "A" code ${digits}\nholder u2 "B" code 4829`,
      `holder u1 "A" ${digits}`,
      `holder u1 "A" code x${digits} ${digits}`,
      `keypad g "x" : m { relay 1 { ${digits} } installer code ${digits} }`,
      digits,
    ]) {
      expect(messages(text)).not.toEqual([]);
      expect(messages(text).join()).not.toContain(digits);
    }
  });

  it("are called that", () => {
    expect(messages('holder u1 "A" ４８２９１').join("\n")).toContain("expected digits 0 to 9, found those of another script");
  });
});

describe("a letter in a number", () => {
  it.each([
    ["5591O", "; is the letter O meant to be the digit 0?"],
    ["5591o", "; is the letter O meant to be the digit 0?"],
    ["4829l", "; is the letter l meant to be the digit 1?"],
    ["4829I", "; is the letter I meant to be the digit 1?"],
    ["7B014D", "; a hexadecimal number begins with `0x`"],
    ["4829abs", ""],
  ])("%s", (written, guess) => {
    expect(messages(`holder u1 "A" tag ${written}`)).toContain(
      `expected a space between the number and the word after it, found none${guess}`,
    );
  });
});
