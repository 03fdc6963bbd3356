/** A keypad model's text, compiled: facts into values, templates checked against the memory that they write. */
import type { Element, Lengths, ModelDecl, ModelFact, OperationDecl, OperationName, Quantity, Span, Word } from "../../grammar/tree.ts";
import { operationNames } from "../../grammar/tree.ts";
import { measured } from "../doors/quantities.ts";
import type { FileId } from "../finding.ts";
import { labelIn } from "../label.ts";
import { longestCode, mostRelays, silent } from "./defaults.ts";
import { emptyMemory, memoryOf } from "./fitted-memory.ts";
import type { Memory } from "./memory.ts";
import type { Key, Model, OperationTemplate, RelaySet, SettingDef, Slots } from "./model.ts";
import { checkWhole } from "./model-whole.ts";
import type { ModelProblem, Report } from "./problem.ts";
import { relaySet, relaysOf } from "./relay-set.ts";
import { compileSlots } from "./slots-line.ts";
import { checkTemplate, keysIn } from "./template-fields.ts";

type FactOf<Kind extends ModelFact["kind"], Fact = ModelFact> = Fact extends { readonly kind: infer Kinds }
  ? Kind extends Kinds
    ? Fact
    : never
  : never;

/**
 * Compiles a model. Never fails: what cannot be read is a problem, and an operation with one is left out, so that nothing is
 * planned with it.
 *
 * @returns the model, or none where even its name, its `slots` or its `codes` are missing.
 */
export function compileModel(decl: ModelDecl, file: FileId): { readonly model?: Model; readonly problems: readonly ModelProblem[] } {
  const problems: ModelProblem[] = [];
  const report: Report = (check, kind, { start, end }, message, more) =>
    problems.push({
      check,
      kind,
      span: { start, end },
      message,
      severity: more?.severity ?? "error",
      ...(more?.related ? { related: { start: more.related.start, end: more.related.end } } : {}),
    });
  const name = decl.name ?? decl.keyword;
  const facts = new Facts(decl);
  const slots = compileSlots(facts.first("slots")?.form, report);
  const codes = facts.first("codes");
  const codeLengths = lengthsOf(codes?.lengths, report);
  if (!facts.first("slots")) report("model-incomplete", "fact-missing", name, "the model does not say what its slots are like (slots)");
  if (!codes?.lengths) report("model-incomplete", "fact-missing", codes ?? name, "the model does not say how long its codes are (codes)");
  if (!decl.name || !slots || codeLengths.length === 0) return { problems };

  const shape = compileShape(decl, decl.name.text, file, facts, slots, codeLengths, report);
  const settings = compileSettings(shape, facts, report);
  const withSettings: Model = { ...shape, settings };
  const operations = compileOperations(withSettings, decl, report);
  const cancel = compileCancel(withSettings, facts, report);
  const bare: Model = { ...withSettings, operations, cancel };
  const model: Model = { ...bare, factory: compileFactory(bare, facts, report) };
  checkWhole(model, name, facts.decl, report);
  return { model, problems };
}

/** The facts of a model by kind; of two that say the same the first counts, since the second is an error of the grammar. */
class Facts {
  readonly decl: ModelDecl;
  constructor(decl: ModelDecl) {
    this.decl = decl;
  }
  first<Kind extends ModelFact["kind"]>(kind: Kind): FactOf<Kind> | undefined {
    return this.decl.facts.find((fact): fact is FactOf<Kind> => fact.kind === kind);
  }
  all<Kind extends ModelFact["kind"]>(kind: Kind): readonly FactOf<Kind>[] {
    return this.decl.facts.filter((fact): fact is FactOf<Kind> => fact.kind === kind);
  }
}

/** Everything but the operations, the settings and what the keypad holds when new. */
function compileShape(
  decl: ModelDecl,
  id: string,
  file: FileId,
  facts: Facts,
  slots: Slots,
  codeLengths: readonly number[],
  report: Report,
): Model {
  const keys = compileKeys(facts);
  const relays = compileRelays(facts, keys, report);
  const installer = facts.first("codes")?.installer;
  const own = lengthsOf(installer, report);
  const length = facts.first("length");
  const release = compileRelease(facts, report);
  const lapseSeconds = numberOf(facts.first("lapse")?.seconds);
  const lockout = facts.first("lockout");
  const [tries, seconds] = [numberOf(lockout?.tries), numberOf(lockout?.seconds)];
  const refusedShows = facts.first("refused")?.shows?.text;
  const drawsAmps = inUnit(facts.first("draws")?.amount, "A");
  const rating = facts.first("contact-rating");
  const [amps, volts] = [inUnit(rating?.current, "A"), inUnit(rating?.voltage, "V")];
  if (codeLengths.length > 1 && !length?.rule) {
    const span = length ?? facts.first("codes") ?? decl.keyword;
    report("model-incomplete", "fact-missing", span, "codes have more than one length: say which is in force (length)");
  }
  return {
    id,
    label: labelIn(decl.label) ?? id,
    file,
    decl,
    keys,
    relays,
    relayNumbers: [...new Set([...relays.keys()].flatMap(relaysOf).map(Number))].sort((a, b) => a - b),
    slots,
    codeLengths,
    installerLengths: own.length ? own : codeLengths,
    installerOwn: own.length > 0,
    length: codeLengths.length === 1 && length?.rule !== "set by entry" ? "one" : (length?.rule ?? "free"),
    rewrite: facts.first("rewrite")?.rule ?? silent.rewrite,
    twins: facts.first("twins")?.rule ?? silent.twins,
    relength: facts.first("relength")?.rule === "keeps what was stored" ? "keeps" : silent.relength,
    ...(release ? { release } : {}),
    settleSeconds: numberOf(facts.first("settle")?.seconds) ?? silent.settleSeconds,
    ...(lapseSeconds === undefined ? {} : { lapseSeconds }),
    ...(tries === undefined || seconds === undefined ? {} : { lockout: { tries, seconds } }),
    ...(refusedShows === undefined ? {} : { refusedShows }),
    cancel: [],
    resets: facts.all("reset").flatMap(({ what, text }) => (what ? [{ what, text: text?.text ?? "" }] : [])),
    settings: new Map(),
    tagBits: compileTagBits(facts, report),
    session: facts.first("session")?.rule ?? silent.session,
    listens: facts.first("listens")?.rule ?? silent.listens,
    acts: facts.first("acts")?.rule ?? silent.acts,
    operations: new Map(),
    factory: emptyMemory(),
    ...(drawsAmps === undefined ? {} : { drawsAmps }),
    ...(amps === undefined ? {} : { contact: { amps, ...(volts === undefined ? {} : { volts }) } }),
  };
}

function compileKeys(facts: Facts): ReadonlySet<Key> {
  const fact = facts.first("keys");
  if (!fact || fact.keys.length === 0) return new Set(silent.keys);
  const keys = new Set<Key>();
  for (const { from, to } of fact.keys) {
    if (!to) for (const key of keysIn(from.text)) keys.add(key);
    else for (let digit = Number(from.text); digit <= Math.min(Number(to.text), 9); digit++) keys.add(`${digit}`);
  }
  return keys;
}

function compileRelays(facts: Facts, keys: ReadonlySet<Key>, report: Report): ReadonlyMap<RelaySet, readonly Key[]> {
  const fact = facts.first("relays");
  const relays = new Map<RelaySet, readonly Key[]>();
  const typed = new Map<string, { readonly set: RelaySet; readonly span: Span }>();
  for (const line of fact?.relays ?? []) {
    const set = relaySet(line.numbers.map(number => number.text));
    if (line.numbers.length === 0 || line.keys.length === 0) continue;
    if (relays.size >= mostRelays) {
      report("model-field", "number-range", line, `a model has at most ${mostRelays} relays and sets`);
      break;
    }
    const presses = line.keys.flatMap(element => (element.kind === "keys" ? keysIn(element.text) : []));
    const missing = presses.filter(key => !keys.has(key));
    if (missing.length) report("model-field", "key-missing", line, `the keypad has no key ${missing.join(", ")}`);
    if (line.keys.some(element => element.kind !== "keys")) report("model-field", "unknown-field", line, "a relay is typed with keys only");
    const same = typed.get(presses.join(" "));
    if (same) {
      report("model-field", "relay-keys-twice", line, `relay ${set} is typed as relay ${same.set} is`, { related: same.span });
    } else if (relays.has(set)) report("model-field", "relay-keys-twice", line, `relay ${set} is there already`);
    else {
      relays.set(set, presses);
      typed.set(presses.join(" "), { set, span: line });
    }
  }
  return relays.size ? relays : silent.relays;
}

function compileRelease(facts: Facts, report: Report): Model["release"] {
  const fact = facts.first("release-range");
  const [min, max] = [numberOf(fact?.from), numberOf(fact?.to ?? fact?.from)];
  if (!fact || min === undefined || max === undefined) return undefined;
  if (min > max) {
    report("model-field", "number-range", fact, `a range goes upwards: from ${max} to ${min}`);
    return undefined;
  }
  const toggle = fact.toggle?.text;
  if (toggle !== undefined && !/^[0-9]+$/.test(toggle)) {
    report("model-field", "number-range", fact.toggle ?? fact, '"until keyed again" is typed in digits');
    return { min, max };
  }
  if (toggle !== undefined && min <= Number(toggle) && Number(toggle) <= max) {
    report("model-field", "number-range", fact.toggle ?? fact, '"until keyed again" is typed like a number of seconds of the range');
  }
  return { min, max, ...(toggle === undefined ? {} : { toggle }) };
}

function compileTagBits(facts: Facts, report: Report): number {
  const bits = facts.first("tags")?.bits;
  const number = numberOf(bits);
  if (number === undefined) return silent.tagBits;
  if (number >= 24 && number <= 56) return number;
  report("model-field", "number-range", bits ?? facts.decl.keyword, "a tag has 24 to 56 bits");
  return silent.tagBits;
}

function compileSettings(model: Model, facts: Facts, report: Report): ReadonlyMap<string, SettingDef> {
  const settings = new Map<string, SettingDef>();
  for (const fact of facts.all("setting-def")) {
    const [min, max] = [numberOf(fact.from), numberOf(fact.to ?? fact.from)];
    if (!fact.label || min === undefined || max === undefined) continue;
    const factory = numberOf(fact.factory);
    const name = { ...span(fact.label), text: `setting "${fact.label.text}"` };
    if (min > max) report("model-field", "number-range", fact, `a range goes upwards: from ${max} to ${min}`);
    if (factory !== undefined && (factory < min || factory > max)) {
      report("model-field", "number-range", fact.factory ?? fact, `the factory value is outside ${min} to ${max}`);
    }
    const usable = checkTemplate(model, "setting", fact.template, name, { value: max }, report);
    if (!usable || min > max || settings.has(fact.label.text)) continue;
    settings.set(fact.label.text, {
      label: fact.label.text,
      min,
      max,
      ...(factory === undefined ? {} : { factory }),
      template: fact.template,
      ...(fact.shows ? { shows: fact.shows.text } : {}),
    });
  }
  return settings;
}

function compileOperations(model: Model, decl: ModelDecl, report: Report): ReadonlyMap<OperationName, OperationTemplate> {
  const found = new Map<OperationName, OperationTemplate>();
  const isOperation = (fact: ModelFact): fact is OperationDecl => fact.kind === "operation";
  for (const fact of decl.facts.filter(isOperation)) {
    const { operation, template } = fact;
    if (found.has(operation)) continue;
    const name = { ...span(fact.name), text: operation };
    if (!checkTemplate(model, operation, template, name, {}, report)) continue;
    found.set(operation, {
      operation,
      template,
      ...(fact.shows ? { shows: fact.shows.text } : {}),
      wipes: operation === "clear all" && fact.wipes !== undefined,
    });
  }
  // In one order whatever the text's, so that a plan does not change with the order of a model's lines.
  return new Map(operationNames.flatMap(name => (found.has(name) ? [[name, found.get(name) as OperationTemplate]] : [])));
}

function compileCancel(model: Model, facts: Facts, report: Report): readonly Element[] {
  const fact = facts.first("cancel");
  if (!fact) return [];
  return checkTemplate(model, "cancel", fact.template, { ...span(fact.keyword), text: "cancel" }, {}, report) ? fact.template : [];
}

/** What the keypad holds when new: the block, and the factory values of the settings that it does not mention. */
function compileFactory(model: Model, facts: Facts, report: Report): Memory {
  const { memory, problems } = memoryOf(model, facts.first("factory")?.facts ?? []);
  for (const problem of problems) {
    report("model-incomplete", "factory", problem.span, problem.message, problem.related ? { related: problem.related } : {});
  }
  const settings = new Map(memory.settings);
  for (const { label, factory } of model.settings.values()) {
    if (factory !== undefined && !settings.has(label)) settings.set(label, factory);
  }
  return { ...memory, settings };
}

function lengthsOf(lengths: Lengths | undefined, report: Report): readonly number[] {
  if (!lengths) return [];
  const either = lengths.either?.map(word => Number(word.text)) ?? [];
  const [from, to] = [numberOf(lengths.from), numberOf(lengths.to)];
  const all = [...either];
  if (from !== undefined && to !== undefined && from > to)
    report("model-field", "number-range", lengths, `a range goes upwards: from ${to} to ${from}`);
  else if (from !== undefined) for (let length = from; length <= Math.min(to ?? from, longestCode + 1); length++) all.push(length);
  if (all.some(length => length < 1 || length > longestCode)) {
    report("model-field", "number-range", lengths, `a code has 1 to ${longestCode} digits`);
  }
  return [...new Set(all)].filter(length => length >= 1 && length <= longestCode).sort((a, b) => a - b);
}

/** Amperes or volts; undefined where the text has another unit, or none. */
function inUnit(quantity: Quantity | undefined, unit: "A" | "V"): number | undefined {
  const read = quantity && measured(quantity);
  return read?.unit === unit && read.value > 0 ? read.value : undefined;
}

function numberOf(word: Word | undefined): number | undefined {
  const number = word ? Number.parseInt(word.text, 10) : Number.NaN;
  return Number.isNaN(number) ? undefined : number;
}

function span({ start, end }: Span): Span {
  return { start, end };
}
