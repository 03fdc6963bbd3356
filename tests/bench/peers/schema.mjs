// A JSON schema for the content of a text, as exact as the grammar: which facts stand where, and what each of them says.
const text = { type: "string" };
const digits = { type: "string", pattern: "^[0-9]+$" };
const there = { const: true };
const list = (items, least = 0) => ({ type: "array", items, minItems: least });
const oneOf = (...words) => ({ enum: words });
const object = (properties, required = []) => ({ type: "object", properties, required, additionalProperties: false });
/** A fact is told by its kind. */
const fact = (kind, properties = {}, required = []) => object({ kind: { const: kind }, ...properties }, ["kind", ...required]);
const facts = (...all) => ({ type: "object", required: ["kind"], discriminator: { propertyName: "kind" }, oneOf: all });

const note = fact("note", { text }, ["text"]);
const until = fact("until", { date: { type: "string", pattern: "^[0-9]{4}-[0-9]{2}-[0-9]{2}$" } }, ["date"]);
const tagNumber = { type: "string", pattern: "^([0-9]+|[0-9]+,[0-9]+|0[xX][0-9A-Fa-f]+)$" };
const code = fact("code", { name: text, digits, until }, ["digits"]);
const tag = fact("tag", { name: text, number: tagNumber, mark: text, lost: there, until });
const held = object({ holder: text, dot: there, credential: text }, ["holder"]);
const pair = object({ mode: oneOf("or", "with"), word: text, held }, ["mode", "held"]);
const release = fact("release", { seconds: digits, toggle: there });
const installer = fact("installer", { digits, held });
const allRelay = fact("all-relay", { number: digits, held, digits, unknown: there });
const codeLength = fact("code-length", { digits }, ["digits"]);
const setting = fact("setting", { label: text, value: digits }, ["label", "value"]);
const entry = fact("entry", { slot: digits, held, pair }, ["held"]);
const numbers = list(digits, 1);
const relay = fact("relay", { numbers, label: text, spare: there, noCodes: there, release, entries: list(entry) }, ["numbers", "entries"]);

const fittedEntry = fact("fitted-entry", {
  slot: digits,
  unknown: there,
  code: digits,
  tag: object({ number: tagNumber, mark: text }),
  pair: oneOf("or", "with"),
});
const fittedRelay = fact("fitted-relay", { numbers, label: text, release, entries: list(fittedEntry) }, ["numbers", "entries"]);
const modelRef = fact("model-ref", { name: text }, ["name"]);
const storedFacts = list(facts(modelRef, installer, allRelay, codeLength, setting, note, fittedRelay));

const element = facts(
  fact("keys", { text }, ["text"]),
  fact("field", { name: text, width: list(digits) }, ["name"]),
  fact("hand", { text }, ["text"]),
);
const template = list(element);
const lengths = object({ either: list(digits), from: digits, to: digits });
const range = object({ from: digits, to: digits, kept: oneOf("codes", "tags", "all-relay") }, ["from", "to"]);
const form = object({
  addressing: oneOf("per relay", "shared", "unnumbered", "one per relay"),
  ranges: list(range),
  count: digits,
  holds: oneOf("code or tag", "code with tag"),
});
const quantity = object({ value: text, unit: text }, ["value"]);
const modelFact = facts(
  fact("keys", { keys: list(object({ from: text, to: text }, ["from"]), 1) }, ["keys"]),
  fact("relays", { relays: list(object({ numbers, keys: template }, ["numbers", "keys"]), 1) }, ["relays"]),
  fact("slots", { form }, ["form"]),
  fact("codes", { lengths, installer: lengths }, ["lengths"]),
  fact("length", { rule: oneOf("follows installer code", "set by entry", "free") }, ["rule"]),
  fact("rewrite", { rule: oneOf("replaces", "refused") }, ["rule"]),
  fact("twins", { rule: oneOf("refused", "first fires", "all fire") }, ["rule"]),
  fact("relength", { rule: oneOf("clears", "keeps what was stored") }, ["rule"]),
  fact("release-range", { from: digits, to: digits, toggle: digits }, ["from", "to"]),
  fact("settle", { seconds: digits }, ["seconds"]),
  fact("lapse", { seconds: digits }, ["seconds"]),
  fact("lockout", { none: there, tries: digits, seconds: digits }),
  fact("refused", { shows: text }, ["shows"]),
  fact("cancel", { template }, ["template"]),
  fact("reset", { what: oneOf("everything", "installer code"), text }, ["what", "text"]),
  fact("setting-def", { label: text, from: digits, to: digits, factory: digits, template, shows: text }, ["label", "from", "to"]),
  fact("tags", { bits: digits }, ["bits"]),
  fact("session", { rule: oneOf("one entry") }, ["rule"]),
  fact("listens", { rule: oneOf("from the first key", "to the last keys") }, ["rule"]),
  fact("acts", { rule: oneOf("at once", "after a pause") }, ["rule"]),
  fact("draws", { amount: quantity }, ["amount"]),
  fact("contact-rating", { current: quantity, voltage: quantity }, ["current", "voltage"]),
  fact("operation", { operation: text, name: there, template, shows: text, wipes: there }, ["operation", "template"]),
  fact("factory", { facts: storedFacts }, ["facts"]),
  note,
);

export const schema = list(
  facts(
    fact("use", { path: text }, ["path"]),
    fact("site", { label: text, facts: list(facts(fact("address", { text }), fact("contact", { text }), note)) }, ["label"]),
    fact("policy", { rules: list({ type: "object" }) }, ["rules"]),
    fact("holder", { name: text, label: text, facts: list(facts(code, tag, until, note)) }, ["name", "label", "facts"]),
    fact("model", { name: text, label: text, facts: list(modelFact) }, ["name", "label", "facts"]),
    fact("keypad", { name: text, label: text, model: text, facts: list(facts(installer, allRelay, codeLength, setting, note, relay)) }, [
      "name",
      "label",
      "model",
      "facts",
    ]),
    fact("fitted", { keypad: text, unknown: there, date: text, partly: there, facts: storedFacts }, ["keypad", "facts"]),
  ),
);
