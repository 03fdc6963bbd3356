/** The run sheets of a site to stand beside the text: each entry knows the place that it comes from. */
import { entryPlaces } from "../../../shared/editor/entry-places.ts";
import { sheetsOf } from "../../../shared/editor/sheets.ts";
import type { EntryPlace, PreviewParams, PreviewResult } from "../../../shared/requests.ts";
import { sheetFragment } from "../../../shared/sheet/formats/html.ts";
import { besideStyle, style } from "../../../shared/sheet/formats/html-style.ts";
import { answer, failed } from "../answer.ts";
import { locationOf } from "../convert.ts";
import { fileIdOf } from "../uri.ts";
import type { Feature } from "./feature.ts";

export const preview: Feature = {
  capability: {},
  register(connection, workspace) {
    answer(connection, workspace, "mullion/preview", "the preview", async (params: PreviewParams): Promise<PreviewResult> => {
      const work = await workspace.siteWithKeypads(fileIdOf(params.uri));
      if (!work) throw failed("this file belongs to no site that has a keypad");
      const { site } = work;
      // A keypad that is renamed while its sheet stands beside it is not there for a moment.
      const keypads = (params.keypads ?? [...site.keypads.keys()]).flatMap(id => site.keypads.get(id) ?? []);
      const options = { hideCodes: params.hideCodes ?? false, showInstaller: false, today: workspace.host.today() };
      const { sheets, held } = sheetsOf(site, work.findings(), keypads, work.plan, options);
      return {
        sheets: sheets.map((sheet, index) => {
          const keypad = site.keypads.get(sheet.keypad);
          const plan = keypad && work.plan(keypad);
          const places = keypad && plan && !("cannot" in plan) ? entryPlaces(keypad, plan) : new Map();
          const entries = [...places].flatMap(([n, place]): readonly EntryPlace[] => {
            const location = locationOf(workspace.texts, place);
            return location ? [{ n, uri: location.uri, start: location.range.start, end: location.range.end }] : [];
          });
          return { keypad: sheet.keypad, html: sheetFragment(sheet, index), entries };
        }),
        style: style + besideStyle,
        held,
      };
    });
  },
};
