/** What an editor has before it: a disk in memory, open documents, folders; and the server that is told of all that happens to them. */
import type { Host } from "../../../server/lsp/host.ts";
import { fileIdOf } from "../../../server/lsp/uri.ts";
import type { Random } from "../random.ts";
import { samples } from "../text/corpus.ts";
import { today } from "../text/holds.ts";
import { Client } from "./client.ts";

export const folder = "file:///site";

/** A few of the samples: sites of several files, models, one that is broken, names that must be written otherwise in an address. */
export function firstDisk(): Map<string, string> {
  const kept = [...samples].filter(([file]) => /tannery|curlew|models|broken\/(?:slot-clash|use-cycle|merge-conflict|until)/.test(file));
  const disk = new Map(kept.map(([file, text]) => [folder + file, text]));
  disk.set(
    `${folder}/ü%20🏺/λ.mullion`.replace("ü", "%C3%BC").replace("🏺", "%F0%9F%8F%BA").replace("λ", "%CE%BB"),
    'holder u1 "Ünit 🏺 é" code 4829\n',
  );
  return disk;
}

/** What a client says that it can do: all of it, some of it, or nothing. */
export function capabilities(random: Random): object {
  if (random.oneIn(6)) return {};
  const maybe = (name: string, value: unknown) => (random.oneIn(5) ? {} : { [name]: value });
  return {
    workspace: {
      configuration: true,
      workspaceFolders: true,
      ...maybe("workspaceEdit", { documentChanges: true, resourceOperations: ["create", "rename", "delete"] }),
      ...maybe("didChangeWatchedFiles", { dynamicRegistration: true }),
      ...maybe("fileOperations", { willRename: true }),
      ...maybe("diagnostics", { refreshSupport: true }),
      ...maybe("codeLens", { refreshSupport: true }),
      ...maybe("inlayHint", { refreshSupport: true }),
      ...maybe("symbol", { symbolKind: { valueSet: [5, 6, 7, 8] } }),
    },
    textDocument: {
      diagnostic: { relatedInformation: true, tagSupport: { valueSet: [1, 2] }, codeDescriptionSupport: true, dataSupport: true },
      ...maybe("rename", { prepareSupport: true }),
      ...maybe("documentSymbol", { hierarchicalDocumentSymbolSupport: true }),
      ...maybe("hover", { contentFormat: ["markdown", "plaintext"] }),
      ...maybe("foldingRange", { lineFoldingOnly: true }),
      ...maybe("definition", { linkSupport: true }),
      ...maybe("completion", { completionItem: { snippetSupport: true, documentationFormat: ["markdown"] } }),
      ...maybe("codeAction", {
        codeActionLiteralSupport: { codeActionKind: { valueSet: ["quickfix", "source.fixAll"] } },
        isPreferredSupport: true,
        dataSupport: true,
        resolveSupport: { properties: ["edit"] },
      }),
    },
  };
}

/** A server that has just been started on this disk. */
export async function started(disk: ReadonlyMap<string, string>, said: object, folders: readonly string[]): Promise<Client> {
  const host: Host = {
    reads: () => true,
    today: () => today,
    random: count => new Uint8Array(count).map((_, index) => index * 37),
    read: async file => disk.get(file),
    find: async root => [...disk.keys()].filter(file => file.startsWith(`${root.replace(/\/$/, "")}/`)).map(fileIdOf),
  };
  const client = new Client(host, (method, params) =>
    method === "workspace/configuration" ? (params as { items: unknown[] }).items.map(() => ({ inlayHints: "on" })) : null,
  );
  await client.ask("initialize", {
    processId: null,
    rootUri: null,
    capabilities: said,
    clientInfo: { name: "Visual Studio Code" },
    workspaceFolders: folders.map(uri => ({ uri, name: uri })),
  });
  client.notify("initialized", {});
  return client;
}
