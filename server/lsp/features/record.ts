/** What was typed at a keypad, as an edit of its fitted record. */
import { planOfSheet, recordTyped } from "../../../shared/plan/record-typed.ts";
import { planFor } from "../../../shared/plan/start.ts";
import type { RecordResult } from "../../../shared/requests.ts";
import { answer } from "../answer.ts";
import { rangeOf } from "../convert.ts";
import { fileIdOf } from "../uri.ts";
import type { Feature } from "./feature.ts";

export const record: Feature = {
  capability: {},
  register(connection, workspace) {
    answer(connection, workspace, "mullion/record", "the record", async (params): Promise<RecordResult> => {
      const refuse = (refused: string) => ({ edits: [], recorded: 0, refused });
      const work = await workspace.siteWithKeypads(fileIdOf(params.uri));
      const keypad = work?.site.keypads.get(params.keypad);
      if (!work || !keypad) return refuse(`there is no keypad ${params.keypad} here`);
      const asked = params.replaced === true ? planFor(work.site, keypad, "factory") : work.plan(keypad);
      const others = () => [planFor(work.site, keypad, "reset"), planFor(work.site, keypad, "fitted", { clearAll: true })];
      const plan = params.sheet === undefined ? asked : (planOfSheet(keypad, [asked, ...others()], params.sheet) ?? asked);
      const written = recordTyped(work.site, work.findings(), keypad, plan, params, file => workspace.texts.now(file));
      if ("refused" in written) return { ...refuse(written.refused), ...(written.otherSheet && { otherSheet: true }) };
      const { file, create, text, entries } = written;
      const source = workspace.texts.now(file);
      const nowhere = { line: 0, character: 0 };
      const { start, end } = source ? rangeOf(source, written) : { start: nowhere, end: nowhere };
      return { edits: [{ uri: workspace.texts.uri(file), ...(create && { create }), changes: [{ start, end, text }] }], recorded: entries };
    });
  },
};
