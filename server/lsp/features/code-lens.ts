/** Above each keypad: "7 entries to type", "run sheet", "record as typed". */
import type { CodeLens, CodeLensParams } from "vscode-languageserver";
import { CodeLensRefreshRequest } from "vscode-languageserver";
import { waitingWords } from "../../../shared/editor/keypad-words.ts";
import type { Commands } from "../../../shared/requests.ts";
import { rangeOf } from "../convert.ts";
import { guarded, quietly } from "../guarded.ts";
import type { Workspace } from "../workspace.ts";
import type { Feature } from "./feature.ts";

interface LensData {
  readonly uri: string;
  readonly keypad: string;
  readonly says: "waiting" | "sheet" | "record";
}

export const codeLens: Feature = {
  capability: { codeLensProvider: { resolveProvider: true } },
  register(connection, workspace) {
    connection.onCodeLens(
      guarded(workspace, "lenses", [], async ({ textDocument: { uri } }: CodeLensParams): Promise<CodeLens[]> => {
        const at = await workspace.fileInSite(uri);
        if (!at) return [];
        const says: LensData["says"][] = ["waiting"];
        if (workspace.commands.has("mullion.exportSheet")) says.push("sheet");
        if (workspace.commands.has("mullion.recordAsTyped")) says.push("record");
        return [...at.site.keypads.values()]
          .filter(({ file, model }) => file === at.file && model)
          .flatMap(({ id, node }) => {
            const range = rangeOf(at.source, node.name ?? node.keyword);
            return says.map(each => ({ range, data: { uri, keypad: id, says: each } satisfies LensData }));
          });
      }),
    );
    connection.onCodeLensResolve((lens, token) =>
      guarded(workspace, "lenses", lens, () => resolved(workspace, lens, lens.data as LensData))(undefined, token),
    );
    workspace.onChange(why => {
      if (why === "elsewhere" && workspace.client.workspace?.codeLens?.refreshSupport)
        quietly(connection.sendRequest(CodeLensRefreshRequest.type));
    });
  },
};

async function resolved(workspace: Workspace, lens: CodeLens, { uri, keypad: id, says }: LensData): Promise<CodeLens> {
  const run = (title: string, command: keyof Commands) => ({ ...lens, command: { title, command, arguments: [uri, id] } });
  if (says === "sheet") return run("run sheet", "mullion.exportSheet");
  if (says === "record") return run("record as typed", "mullion.recordAsTyped");
  const at = await workspace.fileInSite(uri);
  const keypad = at?.site.keypads.get(id);
  const plan = keypad && at?.plan(keypad);
  const title = plan ? waitingWords(plan) : "nothing known";
  return workspace.commands.has("mullion.previewSheet") && plan && !("cannot" in plan)
    ? run(title, "mullion.previewSheet")
    : { ...lens, command: { title, command: "" } };
}
