// The same language made with Langium: its grammar, names linked within the text, and three of the checks.
import { readFileSync } from "node:fs";
import { AstUtils, DefaultScopeProvider, EMPTY_SCOPE, EmptyFileSystem, inject, MapScope, URI } from "langium";
import { createLangiumGrammarServices, interpretAstReflection } from "langium/grammar";
import { createDefaultModule, createDefaultSharedModule } from "langium/lsp";

/**
 * Services for texts in memory; with a connection, those of a language server.
 *
 * @param mapped whether names are looked up in a map of our own, rather than as Langium does it unless told otherwise
 */
export async function langiumServices(mapped, connection) {
  const { grammar } = createLangiumGrammarServices(EmptyFileSystem);
  const text = readFileSync(new URL("mullion.langium", import.meta.url), "utf8");
  const document = grammar.shared.workspace.LangiumDocumentFactory.fromString(text, URI.parse("memory:/mullion.langium"));
  await grammar.shared.workspace.DocumentBuilder.build([document], { validation: true });
  const wrong = document.diagnostics.filter(({ severity }) => severity === 1);
  if (wrong.length > 0) throw new Error(wrong.map(({ message, range }) => `${range.start.line + 1}: ${message}`).join("\n"));
  const tree = document.parseResult.value;
  const shared = inject(createDefaultSharedModule({ connection, ...EmptyFileSystem }), {
    AstReflection: () => interpretAstReflection(tree),
  });
  const services = inject(createDefaultModule({ shared }), {
    Grammar: () => tree,
    LanguageMetaData: () => ({ caseInsensitive: false, fileExtensions: [".mullion"], languageId: "mullion", mode: "production" }),
    parser: { ParserConfig: () => ({ skipValidations: true }) },
    references: { ScopeProvider: language => new CredentialsOfHolder(language, mapped) },
  });
  shared.ServiceRegistry.register(services);
  services.validation.ValidationRegistry.register({ Keypad: [slotClash, codeLength, relayUnreachable] });
  return { shared, services };
}

/**
 * `u1.tag` and `u1.yard` are looked for among what the holder was given; a holder, a model and a keypad in the whole text. Left to
 * itself Langium goes through all names for each reference.
 */
class CredentialsOfHolder extends DefaultScopeProvider {
  #descriptions;
  #declared = new WeakMap();
  #mapped;

  constructor(services, mapped) {
    super(services);
    this.#mapped = mapped;
    this.#descriptions = services.workspace.AstNodeDescriptionProvider;
  }

  getScope(context) {
    if (context.property !== "credential")
      return this.#mapped
        ? this.#declaredIn(AstUtils.findRootNode(context.container), this.reflection.getReferenceType(context))
        : super.getScope(context);
    const holder = context.container.holder?.ref;
    if (!holder) return EMPTY_SCOPE;
    const document = AstUtils.getDocument(holder);
    const given = holder.facts.filter(({ $type }) => $type === "Code" || $type === "Tag");
    return new MapScope(
      given.map(fact => this.#descriptions.createDescription(fact, fact.name ?? (fact.$type === "Code" ? "code" : "tag"), document)),
    );
  }

  #declaredIn(root, type) {
    const known = this.#declared.get(root) ?? new Map();
    this.#declared.set(root, known);
    const scope =
      known.get(type) ??
      new MapScope(
        root.declarations
          .filter(({ $type, name }) => $type === type && name !== undefined)
          .map(node => this.#descriptions.createDescription(node, node.name)),
      );
    known.set(type, scope);
    return scope;
  }
}

const factOf = (model, type) => model?.facts.find(({ $type }) => $type === type);
const relaysOf = keypad => keypad.facts.filter(({ $type }) => $type === "Relay");

function slotClash(keypad, accept) {
  const slots = factOf(keypad.model.ref, "Slots");
  if (!slots || slots.count !== undefined) return;
  const taken = new Set();
  for (const relay of relaysOf(keypad)) {
    for (const entry of relay.entries) {
      const number = entry.slot === undefined ? "" : Number(entry.slot);
      const place = slots.addressing === "shared" ? number : `${relay.numbers.join("+")}/${number}`;
      if (taken.has(place)) accept("error", "two entries in one slot", { node: entry, property: "slot" });
      taken.add(place);
    }
  }
}

/** What an entry or an all-relay fact places: the credential that it names, else the unnamed code, else the unnamed tag. */
function placed(held) {
  if (held.credential) return held.credential.ref;
  const facts = held.holder.ref?.facts ?? [];
  const unnamed = type => facts.find(fact => fact.$type === type && fact.name === undefined);
  return unnamed("Code") ?? unnamed("Tag");
}

function codeLength(keypad, accept) {
  const model = keypad.model.ref;
  const lengths = factOf(model, "Codes")?.lengths;
  if (!lengths) return;
  const installer = factOf(keypad, "Installer")?.digits;
  const follows = factOf(model, "Length")?.rule.startsWith("follows") && installer !== undefined;
  const takes = count => {
    if (follows) return count === installer.length;
    return lengths.from === undefined
      ? lengths.either.some(each => Number(each) === count)
      : Number(lengths.from) <= count && count <= Number(lengths.to);
  };
  for (const relay of relaysOf(keypad)) {
    for (const entry of relay.entries) {
      const credential = placed(entry.held);
      if (credential?.$type === "Code" && !takes(credential.digits.length))
        accept("error", "another length", { node: entry, property: "held" });
    }
  }
}

function relayUnreachable(keypad, accept) {
  const relays = relaysOf(keypad);
  const everywhere = keypad.facts.some(({ $type }) => $type === "AllRelay");
  for (const relay of relays) {
    if (relay.spare || relay.noCodes || everywhere || relay.entries.length > 0) continue;
    accept("error", "nothing fires it", { node: relay, property: "numbers" });
  }
  const said = new Set(relays.flatMap(({ numbers }) => numbers));
  const all = factOf(keypad.model.ref, "Relays")?.relays ?? [];
  for (const { numbers } of all)
    if (numbers.length === 1 && !said.has(numbers[0]) && !everywhere)
      accept("error", "nothing fires a relay", { node: keypad, property: "name" });
}
