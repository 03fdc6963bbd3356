/** The run sheets of a site as files to write beside it. */
import { sheetsOf } from "../../../shared/editor/sheets.ts";
import { planFor } from "../../../shared/plan/start.ts";
import type { SheetParams, SheetResult } from "../../../shared/requests.ts";
import { formats } from "../../../shared/sheet/formats/index.ts";
import { baseName } from "../../../shared/site/paths.ts";
import { answer, failed } from "../answer.ts";
import { fileIdOf } from "../uri.ts";
import type { Feature } from "./feature.ts";

export const sheet: Feature = {
  capability: {},
  register(connection, workspace) {
    answer(connection, workspace, "mullion/sheet", "the run sheet", async (params: SheetParams): Promise<SheetResult> => {
      const format = formats.find(({ name }) => name === params.format);
      if (!format) throw failed(`no sheet is written as ${params.format}`);
      const work = await workspace.siteWithKeypads(fileIdOf(params.uri));
      if (!work) throw failed("this file belongs to no site that has a keypad");
      const { site } = work;
      const wanted = params.keypads ?? [...site.keypads.keys()];
      const keypads = wanted.map(id => {
        const keypad = site.keypads.get(id);
        if (!keypad) throw failed(`the site has no keypad ${id}`);
        return keypad;
      });
      const { hideCodes = false, showInstaller = false, from = "fitted" } = params;
      const options = { hideCodes, showInstaller, today: workspace.host.today() };
      const { sheets, held } = sheetsOf(
        site,
        work.findings(),
        keypads,
        from === "fitted" ? work.plan : keypad => planFor(site, keypad, from),
        options,
      );
      const beginning = baseName(site.root).replace(/\.mullion$/, "");
      const files = sheets.map(each => ({
        name: `${beginning}-${each.keypad}-sheet.${format.extension}`,
        content: format.render([each]),
      }));
      return { uri: workspace.texts.uri(site.root), files, held };
    });
  },
};
