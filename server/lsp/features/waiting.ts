/** What is still to be typed, keypad by keypad. */
import { waitingAt } from "../../../shared/plan/waiting.ts";
import type { WaitingKeypad, WaitingParams, WaitingResult } from "../../../shared/requests.ts";
import { baseName } from "../../../shared/site/paths.ts";
import { answer } from "../answer.ts";
import type { SiteAtWork } from "../sites.ts";
import { fileIdOf } from "../uri.ts";
import type { Workspace } from "../workspace.ts";
import type { Feature } from "./feature.ts";

export const waiting: Feature = {
  capability: {},
  register(connection, workspace) {
    answer(connection, workspace, "mullion/waiting", "what is to be typed", async ({ uri }: WaitingParams): Promise<WaitingResult> => {
      if (uri === undefined) await workspace.indexed;
      const sites = uri === undefined ? await workspace.allSites() : await workspace.sitesOf(fileIdOf(uri));
      return { keypads: sites.flatMap(work => waitingIn(workspace, work)) };
    });
  },
};

function waitingIn(workspace: Workspace, { site, findings, plan }: SiteAtWork): readonly WaitingKeypad[] {
  return waitingAt(site, site.label ?? baseName(site.root), findings(), plan).map(({ site: label, keypad, entries, seconds }) => ({
    uri: workspace.texts.uri(keypad.file),
    site: label,
    keypad: keypad.id,
    label: keypad.label,
    recorded: keypad.fitted !== undefined,
    ...(entries !== undefined && seconds !== undefined && { entries, seconds }),
  }));
}
