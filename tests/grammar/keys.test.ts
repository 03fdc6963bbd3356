/** Keys as a person writes them: for a replay, and in a model's operations. */
import { describe, expect, it } from "vitest";
import { parseKeys } from "../../grammar/parse.ts";
import type { Element } from "../../grammar/tree.ts";

function said(element: Element): string {
  if (element.kind === "keys") return element.text;
  if (element.kind === "hand") return `hand: ${element.text}`;
  return `field: ${[element.name.text, ...(element.width ?? []).map(width => width.text)].join(" ")}`;
}

function keysIn(text: string): string[] {
  const { elements, problems } = parseKeys(text);
  return [...elements.map(said), ...problems.map(problem => `problem: ${problem.message}`)];
}

const wanted = "keys (digits, `*`, `#`, a word in capitals, a field in `{…}`, an action in `[…]`)";

describe("keys", () => {
  it("are runs of digits, signs and words in capitals", () => {
    expect(keysIn("7 4 01 48291 OK")).toEqual(["7", "4", "01", "48291", "OK"]);
    expect(keysIn("*12#0 BELL")).toEqual(["*", "12", "#", "0", "BELL"]);
  });

  it("may have fields and what the hand does among them", () => {
    expect(keysIn("8 {relay} {slot:2} {tag:3+5} [ present   tag ] OK")).toEqual([
      "8",
      "field: relay",
      "field: slot 2",
      "field: tag 3 5",
      "hand: present tag",
      "OK",
    ]);
  });

  it("may be over many lines, or none", () => {
    expect(keysIn("7 4\n01 OK\n")).toEqual(["7", "4", "01", "OK"]);
    expect(keysIn("")).toEqual([]);
  });

  it("are no words in small letters, and no message repeats digits", () => {
    expect(keysIn("7 ok 12345")).toEqual(["7", `problem: expected ${wanted}, found \`ok\`; a key is written in capitals: \`OK\``]);
    expect(keysIn("7 1.5")).toEqual(["7", `problem: expected ${wanted}, found a number`]);
    expect(keysIn("7 [present")).toEqual([
      "7",
      "hand: present",
      "problem: expected `]` at the end of what the hand does, found the end of the line",
    ]);
    expect(keysIn("7 [present {slot}")).toContain("problem: expected `]` at the end of what the hand does, found `{`");
    expect(keysIn("7 {slot OK")).toEqual(["7", "field: slot", "OK", "problem: expected `}` to end the field after `slot`, found `OK`"]);
  });
});
