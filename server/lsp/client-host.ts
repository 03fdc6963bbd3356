/** Files that the server cannot read itself (their scheme is not `file`, or it runs in a browser) are asked of the editor. */
import type { Connection } from "vscode-languageserver";
import type { Questions } from "../../shared/requests.ts";
import type { Host } from "./host.ts";
import { fileIdOf, schemeOf } from "./uri.ts";

export function withClient(connection: Connection, own: Host): Host {
  /** Undefined where the client does not know the question. */
  const ask = async <M extends keyof Questions>(method: M, params: Questions[M]["params"]): Promise<Questions[M]["result"] | undefined> => {
    try {
      return await connection.sendRequest<Questions[M]["result"]>(method, params);
    } catch {
      return undefined;
    }
  };
  return {
    today: () => own.today(),
    random: count => own.random(count),
    ...(own.sealed && { sealed: own.sealed }),
    async read(file) {
      if (own.reads(schemeOf(file))) return own.read(file);
      return (await ask("mullion/readFile", { uri: file }))?.text ?? undefined;
    },
    async find(folder) {
      if (own.reads(schemeOf(folder))) return own.find(folder);
      const found = await ask("mullion/findFiles", {});
      return (found?.uris ?? []).map(fileIdOf).filter(file => file.startsWith(folder.replace(/\/?$/, "/")));
    },
    reads: () => true,
  };
}
