/** Deciding by the next token comes to what Chevrotain's own way comes to, for every decision of the grammar and every kind of token. */
import type { ISerializedGast, IToken, TokenType } from "chevrotain";
import { LLkLookaheadStrategy, serializeProduction } from "chevrotain";
import { expect, test } from "vitest";
import { NextToken } from "../../grammar/next-token.ts";
import { MullionParser } from "../../grammar/parser.ts";
import { vocabulary } from "../../grammar/tokens.ts";

const theirs = new LLkLookaheadStrategy({ maxLookahead: 1 });
const ours = new NextToken();
const rules = Object.values(new MullionParser().getGAstProductions());
const kinds = ["Option", "Repetition", "RepetitionMandatory", "RepetitionMandatoryWithSeparator", "RepetitionWithSeparator"] as const;

/** What a decision says to each kind of token; every gate is open, save the first where `shut`. */
function answers(decide: (...said: never[]) => unknown, alternatives: number, shut = false): readonly unknown[] {
  const said = Array.from({ length: alternatives }, (_, index) => ({ ALT: () => undefined, GATE: () => !(shut && index === 0) }));
  return vocabulary.map((type: TokenType) => {
    const next = { tokenTypeIdx: type.tokenTypeIdx, tokenType: type, image: "" } as IToken;
    return decide.apply({ LA: () => next, LA_FAST: () => next } as never, [said] as never);
  });
}

/** Every decision of a rule, from its serialized form. */
function decisionsIn(part: ISerializedGast): readonly { readonly type: string; readonly idx: number; readonly size: number }[] {
  const { type, idx = 0, definition = [] } = part as ISerializedGast & { readonly idx?: number; readonly definition?: ISerializedGast[] };
  const own = type === "Alternation" || kinds.includes(type as never) ? [{ type, idx, size: definition.length }] : [];
  return [...own, ...definition.flatMap(decisionsIn)];
}

test("every decision, every token", () => {
  let compared = 0;
  for (const rule of rules) {
    for (const { type, idx, size } of rule.definition.flatMap(part => decisionsIn(serializeProduction(part)))) {
      const common = { rule, prodOccurrence: idx, maxLookahead: 1, dynamicTokensEnabled: false };
      const ways =
        type === "Alternation"
          ? [false, true].map(hasPredicates => [ours, theirs].map(way => way.buildLookaheadForAlternation({ ...common, hasPredicates })))
          : [[ours, theirs].map(way => way.buildLookaheadForOptional({ ...common, prodType: type as (typeof kinds)[number] }))];
      for (const [index, [our, their]] of ways.entries()) {
        for (const shut of index === 1 ? [false, true] : [false]) {
          const where = `${rule.name}, ${type} ${idx}`;
          expect(answers(our as never, size, shut), where).toEqual(answers(their as never, size, shut));
          compared += vocabulary.length;
        }
      }
    }
  }
  expect(compared).toBeGreaterThan(20_000);
});
