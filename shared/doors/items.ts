/** The numbers of one fact about a door or a supply, in the order written, and what of them cannot be used. */
import type { Quantity, Span, Word } from "../../grammar/tree.ts";
import type { Measured, Unit } from "./quantities.ts";
import { measured, numberOf } from "./quantities.ts";

/** Something about a number that cannot be used as it is written. */
export type Misread = Span &
  (
    | { readonly is: "no unit" | "no such unit" | "another unit"; readonly quantity: Quantity; readonly units: readonly Unit[] }
    | { readonly is: "comma" | "not above nought"; readonly quantity: Quantity }
    | { readonly is: "twice"; readonly quantity: Quantity; readonly of: string }
    | { readonly is: "out of range"; readonly quantity: Quantity; readonly of: string; readonly limit: string }
    /** A fact of a door that has no number. */
    | { readonly is: "not wanted"; readonly quantity: Quantity; readonly of: string }
    | { readonly is: "lacks"; readonly of: string; readonly what: string }
  );

export interface Item {
  readonly unit: Unit | "class";
  readonly value: number;
  readonly quantity: Quantity;
  /** The word right before it in the fact, and the one right behind. */
  readonly after?: string;
  readonly before?: string;
}

/** The quantities of a fact in the order written, each with its neighbours; what cannot be read is told and left out. */
export class Items {
  readonly misread: Misread[] = [];
  private readonly fact: Span & { readonly words: readonly Word[]; readonly quantities: readonly Quantity[] };
  private readonly units: readonly Unit[];
  private readonly hasClass: boolean;

  constructor(fact: Items["fact"], units: readonly Unit[], hasClass = false) {
    this.fact = fact;
    this.units = units;
    this.hasClass = hasClass;
  }

  *[Symbol.iterator](): Iterator<Item> {
    const parts = [...this.fact.words, ...this.fact.quantities].sort((one, other) => one.start - other.start);
    for (const [index, part] of parts.entries()) {
      if (!("value" in part)) continue;
      const [left, right] = [parts[index - 1], parts[index + 1]];
      const item = {
        quantity: part,
        ...(left && "text" in left ? { after: left.text } : {}),
        ...(right && "text" in right ? { before: right.text } : {}),
      };
      const read = this.hasClass && item.after === "class" ? this.unitless(part) : this.read(part);
      if (read) yield { ...item, ...read };
    }
  }

  private unitless(quantity: Quantity): { unit: "class"; value: number } | undefined {
    const value = numberOf(quantity.value.text);
    if (value === undefined || quantity.unit !== undefined) {
      this.tell(quantity, { is: "out of range", quantity, of: "class", limit: "1, 2 or 5, without a unit" });
      return undefined;
    }
    return { unit: "class", value };
  }

  private read(quantity: Quantity): Measured | undefined {
    const read = measured(quantity);
    if (quantity.value.text.includes(",")) this.tell(quantity, { is: "comma", quantity });
    else if (quantity.unit === undefined) this.tell(quantity, { is: "no unit", quantity, units: this.units });
    else if (read === undefined && numberOf(quantity.value.text) !== undefined)
      this.tell(quantity, { is: "no such unit", quantity, units: this.units });
    else if (read === undefined)
      this.tell(quantity, { is: "out of range", quantity, of: "number that is read", limit: "it is from 0.000001 to 1000000" });
    return this.told({ quantity }) ? undefined : read;
  }

  /** The value of a fact that is said once and is more than nought; the first where it is said twice. */
  above0(item: Item, of: string, first: number | undefined): number | undefined {
    if (item.value <= 0) this.tell(item.quantity, { is: "not above nought", quantity: item.quantity });
    const value = this.once(item, of, first);
    return this.told(item) ? first : value;
  }

  once(item: Item, of: string, first: number | undefined): number | undefined {
    if (first === undefined) return item.value;
    this.tell(item.quantity, { is: "twice", quantity: item.quantity, of });
    return first;
  }

  another(item: Item, units: readonly Unit[]): void {
    this.tell(item.quantity, { is: "another unit", quantity: item.quantity, units });
  }

  outside(item: Item, of: string, limit: string): void {
    this.tell(item.quantity, { is: "out of range", quantity: item.quantity, of, limit });
  }

  /** At the word that begins the fact. */
  lacks(of: string, what: string): void {
    this.misread.push({ ...spanOf(this.fact), is: "lacks", of, what });
  }

  told(item: { readonly quantity: Quantity }): boolean {
    return this.misread.some(one => one.is !== "lacks" && one.quantity === item.quantity);
  }

  private tell(quantity: Quantity, what: WithoutSpan<Misread>): void {
    if (!this.told({ quantity })) this.misread.push({ ...spanOf(quantity), ...what });
  }
}

type WithoutSpan<T> = T extends Span ? Omit<T, "start" | "end"> : never;

export function spanOf({ start, end }: Span): Span {
  return { start, end };
}
