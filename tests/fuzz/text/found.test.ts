/** What random texts have found, each as the smallest text that shows it. */
import { describe, expect, test } from "vitest";
import { format } from "../../../grammar/format.ts";
import { parse } from "../../../grammar/parse.ts";
import { findingsOf } from "../../../shared/checks/run.ts";
import { spacingEdits } from "../../../shared/editor/spacing.ts";
import { exampleOf } from "../../../shared/sheet/example.ts";
import { loadSite } from "../../../shared/site/load.ts";
import type { Site } from "../../../shared/site/site.ts";
import { tiny } from "../../support/fixture.ts";

function siteOf(text: string): Site {
  const texts = new Map([
    ["/main.mullion", `use "tiny.mullion"\n${text}`],
    ["/tiny.mullion", tiny],
  ]);
  return loadSite("/main.mullion", file => {
    const own = texts.get(file);
    return own === undefined ? undefined : { file, text: own, ...parse(own) };
  });
}

/** Messages of a text, with those of the other places. */
function messagesOf(text: string): readonly string[] {
  return findingsOf(siteOf(text), { today: "2026-11-25" }).flatMap(({ message, related }) => [
    message,
    ...related.map(other => other.message),
  ]);
}

describe("words of findings", () => {
  test("a holder whose label says nothing is called by the name", () => {
    for (const label of ['""', '"  "']) {
      const messages = messagesOf(`holder u1 ${label}\nkeypad gate "Gate" : tiny { installer code 6044 relay 1 "Gate" { 1 u1 2 u1.tag } }`);
      expect(messages.filter(message => /^\s|^$/.test(message))).toEqual([]);
      expect(messages).toContain("u1 has no code and no tag");
    }
  });

  test("a label that is not closed takes no code into the words of a finding", () => {
    const messages = messagesOf('holder u1 "Unit 1 code 4829\nkeypad gate "Gate" : tiny { installer code 6044 relay 1 "Gate" { 1 u1 } }');
    expect(messages.filter(message => message.includes("4829"))).toEqual([]);
    expect(messages).toContain("Unit 1 code has no code and no tag");
  });
});

test("an example of how to leave programming mode has the installer code, where the model asks for it", () => {
  const [model] = siteOf(
    'model m "M" { keys 0..9 OK slots 1..3 per relay relays 1 = 1 codes 4 digits enter OK {installer} OK leave OK {installer} }',
  ).models.values();
  expect(model && exampleOf(model, "leave")?.map(({ text }) => text)).toEqual(["OK", "[installer code]"]);
});

test("a `slots` line whose numbers or words say nothing, or two things, is a problem at the one too many", () => {
  const problemsOf = (slots: string) => {
    const text = `model m "M" { slots ${slots} }`;
    return parse(text).problems.map(({ start, end }) => text.slice(start, end));
  };
  expect(problemsOf("1 2 3..4 per relay")).toEqual(["1", "2"]);
  expect(problemsOf("00..59 per relay shared")).toEqual(["shared"]);
  expect(problemsOf("00..59 per relay holds code or tag holds code with tag")).toEqual(["holds code with tag"]);
  expect(problemsOf("1..4 one per relay")).toEqual(["1..4"]);
  for (const right of ["00..59 per relay holds code or tag", "500 unnumbered", "one per relay", "1..9 codes, 10..19 tags shared"])
    expect(problemsOf(right)).toEqual([]);
});

test("every part of a `slots` line lies within it, whatever its order", () => {
  const [decl] = parse('model m "M" { slots 1 3..4 per relay }').tree.declarations;
  const [fact] = decl?.kind === "model" ? decl.facts : [];
  expect(fact).toMatchObject({ kind: "slots", form: { start: 20, count: { start: 20 }, ranges: [{ start: 22 }] } });
});

test("the layout of a text with any blanks that part words is a change of blanks alone", () => {
  for (const blank of ["\u2028", "\u00a0", "\u200b", "\u3000", "\v", "\ufeff"]) {
    const text = `holder u1 "A"${blank} code 4829`;
    const edits = spacingEdits(text, format(text) ?? text);
    const after = [...(edits ?? [])].reverse().reduce((now, { start, end, text: by }) => now.slice(0, start) + by + now.slice(end), text);
    expect(after).toBe('holder u1 "A" code 4829\n');
  }
});

test("a comment that stands alone behind any blank is laid out as one that stands alone", () => {
  for (const blank of ["\u2029", "\u3000", "\u202f", "\u1680", "\u2060"]) {
    const { tree } = parse(`${blank}// why`);
    expect(tree.comments).toMatchObject([{ alone: true }]);
  }
});
