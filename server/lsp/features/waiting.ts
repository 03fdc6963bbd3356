/** What is still to be typed, keypad by keypad. */
import type { Waiting } from "../../../shared/plan/waiting.ts";
import { waitingAt } from "../../../shared/plan/waiting.ts";
import { waitingMarkdown } from "../../../shared/plan/waiting-table.ts";
import type { WaitingKeypad, WaitingParams, WaitingResult } from "../../../shared/requests.ts";
import { baseName } from "../../../shared/site/paths.ts";
import { answer } from "../answer.ts";
import { fileIdOf } from "../uri.ts";
import type { Workspace } from "../workspace.ts";
import type { Feature } from "./feature.ts";

export const waiting: Feature = {
  capability: {},
  register(connection, workspace) {
    answer(connection, workspace, "mullion/waiting", "what is to be typed", async ({ uri }: WaitingParams): Promise<WaitingResult> => {
      if (uri === undefined) await workspace.indexed;
      const sites = uri === undefined ? await workspace.allSites() : await workspace.sitesOf(fileIdOf(uri));
      const rows = sites.flatMap(({ site, findings, plan }) => waitingAt(site, site.label ?? baseName(site.root), findings(), plan));
      return { keypads: rows.map(row => waitingIn(workspace, row)), ...(uri === undefined && { markdown: waitingMarkdown(rows) }) };
    });
  },
};

function waitingIn(workspace: Workspace, { site, keypad, entries, seconds }: Waiting): WaitingKeypad {
  return {
    uri: workspace.texts.uri(keypad.file),
    site,
    keypad: keypad.id,
    label: keypad.label,
    recorded: keypad.fitted !== undefined,
    ...(entries !== undefined && seconds !== undefined && { entries, seconds }),
  };
}
