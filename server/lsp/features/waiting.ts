/** What is still to be typed, keypad by keypad. */
import type { WaitingKeypad, WaitingParams, WaitingResult } from "../../../shared/requests.ts";
import { baseName } from "../../../shared/site/paths.ts";
import type { Keypad } from "../../../shared/site/site.ts";
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
      return { keypads: sites.flatMap(work => [...work.site.keypads.values()].map(keypad => waitingAt(workspace, work, keypad))) };
    });
  },
};

function waitingAt(workspace: Workspace, { site, plan }: SiteAtWork, keypad: Keypad): WaitingKeypad {
  const planned = plan(keypad);
  return {
    uri: workspace.texts.uri(keypad.file),
    site: site.label ?? baseName(site.root),
    keypad: keypad.id,
    label: keypad.label,
    ...(planned && !("cannot" in planned) && { entries: planned.counts.entries, seconds: planned.seconds }),
  };
}
