/** Whether a message is what the protocol says that it is: a generic reading of its published meta model. */
import { readFileSync } from "node:fs";
import { join } from "node:path";

/** A type of the meta model; only what is read of it here. */
type Type =
  | { readonly kind: "base"; readonly name: string }
  | { readonly kind: "reference"; readonly name: string }
  | { readonly kind: "array"; readonly element: Type }
  | { readonly kind: "map"; readonly key: Type; readonly value: Type }
  | { readonly kind: "and" | "or" | "tuple"; readonly items: readonly Type[] }
  | { readonly kind: "literal"; readonly value: { readonly properties: readonly Property[] } }
  | { readonly kind: "stringLiteral" | "integerLiteral" | "booleanLiteral"; readonly value: string | number | boolean };

interface Property {
  readonly name: string;
  readonly type: Type;
  readonly optional?: boolean;
}

interface Structure {
  readonly name: string;
  readonly extends?: readonly Type[];
  readonly mixins?: readonly Type[];
  readonly properties: readonly Property[];
}

interface Enumeration {
  readonly name: string;
  readonly type: Type;
  readonly values: readonly { readonly value: string | number }[];
  readonly supportsCustomValues?: boolean;
}

interface Method {
  readonly method: string;
  readonly params?: Type;
  readonly result?: Type;
}

interface MetaModel {
  readonly requests: readonly Method[];
  readonly notifications: readonly Method[];
  readonly structures: readonly Structure[];
  readonly enumerations: readonly Enumeration[];
  readonly typeAliases: readonly { readonly name: string; readonly type: Type }[];
}

const model = JSON.parse(readFileSync(join(import.meta.dirname, "metaModel.json"), "utf8")) as MetaModel;
const structures = new Map(model.structures.map(each => [each.name, each]));
const enumerations = new Map(model.enumerations.map(each => [each.name, each]));
const aliases = new Map(model.typeAliases.map(each => [each.name, each.type]));
const requests = new Map(model.requests.map(each => [each.method, each]));
const notifications = new Map(model.notifications.map(each => [each.method, each]));
const properties = new Map<string, ReadonlyMap<string, Property>>();

/** What is wrong with the answer to a request, with the way to it; undefined where nothing is, or where the protocol does not know the method. */
export function wrongResult(method: string, result: unknown): string | undefined {
  const type = requests.get(method)?.result;
  return type && wrong(type, result, "result");
}

/** The same for what a request or a notification is sent with. A method of the protocol's own kind that it does not have is wrong. */
export function wrongParams(method: string, params: unknown): string | undefined {
  const known = requests.get(method) ?? notifications.get(method);
  if (!known) return /^(?:mullion|\$)\//.test(method) ? undefined : `the protocol has no ${method}`;
  if (!known.params) return params === undefined || params === null ? undefined : "params: there are none";
  return wrong(known.params, params, "params");
}

/** By the name of a structure, an enumeration or another name that the meta model has. */
export function wrongAs(name: string, value: unknown): string | undefined {
  return wrong({ kind: "reference", name }, value, name);
}

function wrong(type: Type, value: unknown, at: string): string | undefined {
  switch (type.kind) {
    case "base":
      return isBase(type.name, value) ? undefined : `${at}: not ${type.name}`;
    case "reference":
      return wrongReference(type.name, value, at);
    case "array": {
      if (!Array.isArray(value)) return `${at}: not an array`;
      return first(value, (each, index) => wrong(type.element, each, `${at}[${index}]`));
    }
    case "map": {
      if (!isObject(value)) return `${at}: not a map`;
      return first(Object.entries(value), ([key, each]) => wrong(type.key, key, `${at}: key`) ?? wrong(type.value, each, `${at}.${key}`));
    }
    case "and":
      return first(type.items, item => wrong(item, value, at));
    case "or": {
      const faults = type.items.map(item => wrong(item, value, at));
      if (faults.includes(undefined)) return undefined;
      // The fault that lies deepest is that of the alternative which was meant.
      return faults.sort((one, other) => depthOf(other) - depthOf(one))[0];
    }
    case "tuple": {
      if (!Array.isArray(value) || value.length !== type.items.length) return `${at}: not ${type.items.length} values`;
      return first(type.items, (item, index) => wrong(item, value[index], `${at}[${index}]`));
    }
    case "literal":
      return wrongProperties(new Map(type.value.properties.map(each => [each.name, each])), value, at);
    default:
      return value === type.value ? undefined : `${at}: not ${JSON.stringify(type.value)}`;
  }
}

function wrongReference(name: string, value: unknown, at: string): string | undefined {
  // Anything that JSON can say, the protocol's own way round.
  if (name === "LSPAny") return value === undefined ? `${at}: nothing` : undefined;
  if (name === "LSPObject") return isObject(value) ? undefined : `${at}: not an object`;
  const enumeration = enumerations.get(name);
  if (enumeration) {
    const fault = wrong(enumeration.type, value, at);
    if (fault || enumeration.supportsCustomValues) return fault;
    return enumeration.values.some(each => each.value === value) ? undefined : `${at}: no ${name}`;
  }
  const alias = aliases.get(name);
  if (alias) return wrong(alias, value, at);
  return wrongProperties(propertiesOf(name), value, at);
}

function wrongProperties(known: ReadonlyMap<string, Property>, value: unknown, at: string): string | undefined {
  if (!isObject(value)) return `${at}: not an object`;
  for (const key of Object.keys(value)) if (!known.has(key)) return `${at}.${key}: the protocol does not know it`;
  return first([...known.values()], ({ name, type, optional }) => {
    const own = (value as Record<string, unknown>)[name];
    if (own === undefined) return optional ? undefined : `${at}.${name}: missing`;
    return wrong(type, own, `${at}.${name}`);
  });
}

/** A structure's own and inherited properties. */
function propertiesOf(name: string): ReadonlyMap<string, Property> {
  const known = properties.get(name);
  if (known) return known;
  const structure = structures.get(name);
  if (!structure) throw new Error(`the meta model has no ${name}`);
  const all = new Map<string, Property>();
  for (const parent of [...(structure.extends ?? []), ...(structure.mixins ?? [])])
    if (parent.kind === "reference") for (const [key, property] of propertiesOf(parent.name)) all.set(key, property);
  for (const property of structure.properties) all.set(property.name, property);
  properties.set(name, all);
  return all;
}

function isBase(name: string, value: unknown): boolean {
  switch (name) {
    case "integer":
      return isWhole(value, -(2 ** 31));
    case "uinteger":
      return isWhole(value, 0);
    case "decimal":
      return typeof value === "number" && Number.isFinite(value);
    case "boolean":
      return typeof value === "boolean";
    case "null":
      return value === null;
    case "URI":
    case "DocumentUri":
      return typeof value === "string" && /^[A-Za-z][\w+.-]*:/.test(value);
    default:
      return typeof value === "string";
  }
}

/** The protocol's whole numbers end at 2^31 - 1. */
function isWhole(value: unknown, least: number): boolean {
  return Number.isInteger(value) && (value as number) >= least && (value as number) < 2 ** 31;
}

function isObject(value: unknown): value is object {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

function first<T>(list: readonly T[], look: (each: T, index: number) => string | undefined): string | undefined {
  for (const [index, each] of list.entries()) {
    const found = look(each, index);
    if (found !== undefined) return found;
  }
  return undefined;
}

function depthOf(fault: string | undefined): number {
  return (fault ?? "").split(":")[0]?.split(/[.[]/).length ?? 0;
}
