/** Above each keypad: "7 entries to type", "run sheet", "record as typed". */
import type { CodeLens, CodeLensParams } from "vscode-languageserver";
import { CodeLensRefreshRequest } from "vscode-languageserver";
import { waitingWords } from "../../../shared/editor/keypad-words.ts";
import { holdsBack } from "../../../shared/plan/held-back.ts";
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
        return [...at.site.keypads.values()]
          .filter(({ file, model }) => file === at.file && model)
          .flatMap(keypad => {
            const range = rangeOf(at.source, keypad.node.name ?? keypad.node.keyword);
            const says: LensData["says"][] = ["waiting"];
            // What an error holds back can neither be carried to the door nor have been typed from.
            if (!at.findings().some(finding => holdsBack(finding, keypad))) {
              if (workspace.commands.has("mullion.exportSheet")) says.push("sheet");
              if (workspace.commands.has("mullion.recordAsTyped")) says.push("record");
            }
            return says.map(each => ({ range, data: { uri, keypad: keypad.id, says: each } satisfies LensData }));
          });
      }),
    );
    connection.onCodeLensResolve((lens, token) =>
      guarded(workspace, "lenses", lens, () => resolved(workspace, lens, lens.data as LensData | undefined))(lens, token),
    );
    workspace.onChange(why => {
      if (why === "elsewhere" && workspace.client.workspace?.codeLens?.refreshSupport)
        quietly(connection.sendRequest(CodeLensRefreshRequest.type));
    });
  },
};

/** A lens that is none of ours stays as it is. */
async function resolved(workspace: Workspace, lens: CodeLens, data: LensData | undefined): Promise<CodeLens> {
  if (!data?.uri) return lens;
  const { uri, keypad: id, says } = data;
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
