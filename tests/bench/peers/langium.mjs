// The same text read, linked and checked by the Langium language.
import { URI } from "langium";
import { siteText } from "../generate.ts";
import { langiumServices } from "./langium-language.mjs";

export const prepare = lines => prepared(lines, false);

/** The same with names in a map. */
export async function prepared(lines, mapped) {
  const { shared } = await langiumServices(mapped);
  const { LangiumDocumentFactory, LangiumDocuments, DocumentBuilder } = shared.workspace;
  const text = siteText(lines, "inside");
  const uri = URI.parse("memory:/site.mullion");
  return async () => {
    const document = LangiumDocumentFactory.fromString(text, uri);
    LangiumDocuments.addDocument(document);
    await DocumentBuilder.build([document], { validation: true });
    const { parserErrors, lexerErrors, value } = document.parseResult;
    if (parserErrors.length + lexerErrors.length > 0) throw new Error(`${parserErrors[0]?.message ?? lexerErrors[0]?.message}`);
    const count = message => document.diagnostics.filter(found => found.message === message).length;
    const said = {
      declarations: value.declarations.length,
      slotClash: count("two entries in one slot"),
      codeLength: count("another length"),
    };
    LangiumDocuments.deleteDocument(uri);
    return said;
  };
}
