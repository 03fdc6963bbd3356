/** Who opens what, now and after the next visit, as a page to read. */
import { md } from "../../../shared/who/formats/md.ts";
import { whoTable } from "../../../shared/who/table.ts";
import { waysIn } from "../../../shared/who/who.ts";
import { answer, failed } from "../answer.ts";
import { fileIdOf } from "../uri.ts";
import type { Feature } from "./feature.ts";

export const who: Feature = {
  capability: {},
  register(connection, workspace) {
    answer(connection, workspace, "mullion/who", "who opens what", async ({ uri }) => {
      const work = await workspace.siteWithKeypads(fileIdOf(uri));
      if (!work) throw failed("this file belongs to no site that has a keypad");
      const today = workspace.host.today();
      return { markdown: md.render(whoTable(work.site, waysIn(work.site, today), today)) };
    });
  },
};
