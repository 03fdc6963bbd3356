// The Langium language as a server over standard input and output.
import { startLanguageServer } from "langium/lsp";
import { createConnection, ProposedFeatures } from "vscode-languageserver/node";
import { langiumServices } from "./langium-language.mjs";

const { shared } = await langiumServices(true, createConnection(ProposedFeatures.all));
startLanguageServer(shared);
