/** Every number of a site's doors, supplies and models' electrics that cannot be used as it is written. */
import type { DoorDecl, ModelDecl, Quantity, Span } from "../../grammar/tree.ts";
import type { FileId } from "../finding.ts";
import type { Site } from "../site/site.ts";
import type { Misread } from "./items.ts";
import { Items } from "./items.ts";
import type { Unit } from "./quantities.ts";
import { cableOf, lockOf, supplyOf } from "./wiring.ts";

export type MisreadAt = Misread & { readonly file: FileId };

export function* misreadOf(site: Site): Iterable<MisreadAt> {
  for (const { file, node } of site.doors)
    yield* at(site, file, node, [...lockOf(node).misread, ...cableOf(node).misread, ...numberless(node)]);
  for (const { file, node } of site.supplies) yield* at(site, file, node, supplyOf(node).misread);
  for (const { file, node } of site.modelNodes) yield* at(site, file, node, electrics(node));
}

/** Where a slip has been reported, what it left out is not missed besides. */
function* at(site: Site, file: FileId, node: Span, misread: readonly Misread[]): Iterable<MisreadAt> {
  if (misread.length === 0) return;
  const problems = site.files.find(source => source.file === file)?.problems ?? [];
  const isDamaged = problems.some(problem => node.start <= problem.start && problem.start <= node.end);
  for (const one of misread) if (one.is !== "lacks" || !isDamaged) yield { ...one, file };
}

/** Facts of a door that have no number. */
function numberless(door: DoorDecl): readonly Misread[] {
  return door.facts.flatMap(({ kind, keyword, quantities }) =>
    kind === "lock" || kind === "cable"
      ? []
      : quantities.map(quantity => ({
          start: quantity.start,
          end: quantity.end,
          is: "not wanted" as const,
          quantity,
          of: keyword.text,
        })),
  );
}

/** What a model draws and what its contacts are rated for. */
function electrics(model: ModelDecl): readonly Misread[] {
  return model.facts.flatMap(fact => {
    if (fact.kind === "draws") return one(fact, fact.amount, "A");
    if (fact.kind === "contact-rating") return [...one(fact, fact.current, "A"), ...one(fact, fact.voltage, "V")];
    return [];
  });
}

function one(fact: Span, quantity: Quantity | undefined, unit: Unit): readonly Misread[] {
  if (quantity === undefined) return [];
  const items = new Items({ start: fact.start, end: fact.end, words: [], quantities: [quantity] }, [unit]);
  for (const item of items) {
    if (item.unit === unit) items.above0(item, "value", undefined);
    else items.another(item, [unit]);
  }
  return items.misread;
}
