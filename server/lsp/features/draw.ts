/** A new code for a holder, as an edit of the file that declares the holder. */
import { issueCode } from "../../../shared/codes/issue.ts";
import type { DrawParams, EditsResult } from "../../../shared/requests.ts";
import { answer } from "../answer.ts";
import { rangeOf } from "../convert.ts";
import { fileIdOf } from "../uri.ts";
import type { Feature } from "./feature.ts";

export const draw: Feature = {
  capability: {},
  register(connection, workspace) {
    answer(connection, workspace, "mullion/draw", "drawing a code", async ({ uri, holder: id, name }: DrawParams): Promise<EditsResult> => {
      const file = fileIdOf(uri);
      const sites = await workspace.sitesOf(file);
      const work = sites.find(({ site }) => site.holders.has(id));
      const holder = work?.site.holders.get(id);
      if (!work || !holder) return { edits: [], refused: `there is no holder ${id} here` };
      const issued = issueCode(work.site, holder, name, workspace.host.random);
      if ("not" in issued) return { edits: [], refused: issued.not };
      const source = workspace.texts.now(issued.edit.file);
      if (!source) return { edits: [], refused: `the file that declares ${id} is gone` };
      const { start, end } = rangeOf(source, issued.edit);
      return { edits: [{ uri: workspace.texts.uri(source.file), changes: [{ start, end, text: issued.edit.text }] }] };
    });
  },
};
