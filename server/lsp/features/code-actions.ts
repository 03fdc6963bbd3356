/** Ways out of the findings at a place, and all the safe ones of a file at once. Worked out from the text, never from what the client echoes. */
import type { CodeAction, CodeActionParams, Command, WorkspaceEdit } from "vscode-languageserver";
import { CodeActionKind } from "vscode-languageserver";
import { fixesFor } from "../../../shared/checks/run.ts";
import { issueCode } from "../../../shared/codes/issue.ts";
import { safeEdits } from "../../../shared/editor/fix-all.ts";
import type { Finding } from "../../../shared/finding.ts";
import { leave } from "../../../shared/leaving/leave.ts";
import { failed } from "../answer.ts";
import { diagnosticOf, spanOf, workspaceEditOf } from "../convert.ts";
import { guarded, overtaken } from "../guarded.ts";
import { wishesOf } from "../wishes.ts";
import type { AtWorkInSite, Workspace } from "../workspace.ts";
import type { Feature } from "./feature.ts";

export const codeActions: Feature = {
  capability: {
    codeActionProvider: {
      codeActionKinds: [CodeActionKind.QuickFix, CodeActionKind.Refactor, CodeActionKind.SourceFixAll],
      resolveProvider: true,
    },
  },
  register(connection, workspace) {
    connection.onCodeAction(
      guarded(
        workspace,
        "quick fixes",
        [],
        async ({ textDocument, range, context: { only } }: CodeActionParams): Promise<(CodeAction | Command)[]> => {
          const at = await workspace.fileInSite(textDocument.uri);
          if (!at || !workspace.client.textDocument?.codeAction?.codeActionLiteralSupport) return [];
          const asked = (kind: string) => only?.some(each => kind === each || kind.startsWith(`${each}.`)) ?? false;
          return [
            ...(only === undefined || asked(CodeActionKind.QuickFix) ? quickFixes(workspace, at, spanOf(at.source, range)) : []),
            ...(only === undefined || asked(CodeActionKind.Refactor) ? leaving(workspace, at, spanOf(at.source, range)) : []),
            ...(asked(CodeActionKind.SourceFixAll) ? fixAll(workspace, at) : []),
          ];
        },
      ),
    );
    connection.onCodeActionResolve((action, token) =>
      guarded(workspace, "quick fixes", action, async (): Promise<CodeAction> => {
        const asked = action.data as ToDraw | undefined;
        if (!asked?.draws) return action;
        const at = await workspace.fileInSite(asked.uri);
        if (at?.document.version !== asked.version) throw overtaken();
        return { ...action, edit: drawn(workspace, at, asked.draws) };
      })(action, token),
    );
  },
};

/** A code is drawn only once its fix is chosen. */
interface ToDraw {
  readonly uri: string;
  readonly version: number;
  /** The credential as entries write it: `u1`, `u3.yard`. */
  readonly draws: string;
}

function drawn(workspace: Workspace, at: AtWorkInSite, path: string): WorkspaceEdit {
  const [id = "", name] = path.split(".");
  const work = at.sites.find(({ site }) => site.holders.has(id));
  const holder = work?.site.holders.get(id);
  if (!work || !holder) throw failed(`there is no holder ${id} here`);
  const issued = issueCode(work.site, holder, name === "code" ? undefined : name, workspace.host.random);
  if ("not" in issued) throw failed(issued.not);
  return edit(workspace, [issued.edit]);
}

function quickFixes(workspace: Workspace, at: AtWorkInSite, { start, end }: { start: number; end: number }): CodeAction[] {
  const seen = new Set<string>();
  return at.sites.flatMap(work => {
    const here = work.findings().filter(finding => finding.file === at.file && finding.start <= end && finding.end >= start);
    return here.flatMap(finding =>
      fixesFor(finding, work.site).flatMap((fix): CodeAction[] => {
        // A file that several sites use has the same way out in each.
        const key = JSON.stringify([fix.title, fix.edits]);
        if (seen.has(key)) return [];
        seen.add(key);
        return [
          {
            title: fix.title,
            kind: CodeActionKind.QuickFix,
            diagnostics: [diagnosticOf(workspace.texts, at.source, finding, wishesOf(workspace))],
            ...(fix.draws === undefined ? { edit: edit(workspace, fix.edits) } : drawing(workspace, at, fix.draws)),
            ...(fix.preferred && { isPreferred: true }),
          },
        ];
      }),
    );
  });
}

/** A client that cannot ask later for the edit gets it now. */
function drawing(workspace: Workspace, at: AtWorkInSite, draws: string): Pick<CodeAction, "edit" | "data"> {
  const later = workspace.client.textDocument?.codeAction?.resolveSupport?.properties.includes("edit");
  const data: ToDraw = { uri: workspace.texts.uri(at.file), version: at.document.version, draws };
  return later ? { data } : { edit: drawn(workspace, at, draws) };
}

/** On the line that declares a holder: out of every keypad of the text. */
function leaving(workspace: Workspace, at: AtWorkInSite, { start, end }: { start: number; end: number }): CodeAction[] {
  return at.sites.flatMap(({ site }) => {
    const holder = [...site.holders.values()].find(
      ({ file, node }) => file === at.file && node.start <= start && end <= (node.label ?? node.name ?? node.keyword).end,
    );
    const edits = holder ? leave(site, holder).edits : [];
    if (!holder || edits.length === 0) return [];
    return [{ title: `Take ${holder.label} out of every keypad`, kind: CodeActionKind.Refactor, edit: edit(workspace, edits) }];
  });
}

function fixAll(workspace: Workspace, at: AtWorkInSite): CodeAction[] {
  const findings: Finding[] = at.findings().filter(({ file }) => file === at.file);
  const edits = safeEdits(at.site, findings);
  return edits.length === 0
    ? []
    : [{ title: "Fix all that is safe to fix", kind: CodeActionKind.SourceFixAll, edit: edit(workspace, edits) }];
}

function edit(workspace: Workspace, edits: Parameters<typeof workspaceEditOf>[1]) {
  return workspaceEditOf(workspace.texts, edits, workspace.client.workspace?.workspaceEdit?.documentChanges === true);
}
