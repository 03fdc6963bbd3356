/** The papers beside the run sheet, as files to write beside the site. */

import { paperFormats } from "../../../shared/papers/formats/index.ts";
import { papers } from "../../../shared/papers/index.ts";
import { holdsBack } from "../../../shared/plan/held-back.ts";
import type { PaperParams, SheetResult } from "../../../shared/requests.ts";
import { baseName } from "../../../shared/site/paths.ts";
import { answer, failed } from "../answer.ts";
import { fileIdOf } from "../uri.ts";
import type { Feature } from "./feature.ts";

export const paper: Feature = {
  capability: {},
  register(connection, workspace) {
    answer(connection, workspace, "mullion/paper", "the paper", async (params: PaperParams): Promise<SheetResult> => {
      const kind = papers.find(({ name }) => name === params.paper);
      const format = paperFormats.find(({ name }) => name === params.format);
      if (!kind) throw failed(`there is no paper called ${params.paper}`);
      if (!format) throw failed(`no paper is written as ${params.format}`);
      if (kind.name === "envelope" && !params.keypads?.length) throw failed("name the keypad whose installer code is wanted");
      const work = await workspace.siteWithKeypads(fileIdOf(params.uri));
      if (!work) throw failed("this file belongs to no site that has a keypad");
      const { site } = work;
      const asked = (params.keypads ?? [...site.keypads.keys()]).map(id => {
        const keypad = site.keypads.get(id);
        if (!keypad) throw failed(`the site has no keypad ${id}`);
        return keypad;
      });
      const findings = work.findings();
      const reasons = new Map(asked.map(keypad => [keypad, findings.filter(finding => holdsBack(finding, keypad))]));
      const keypads = asked.filter(keypad => reasons.get(keypad)?.length === 0);
      const options = { today: workspace.host.today(), hideCodes: params.hideCodes ?? false, keypads };
      const made = keypads.length === 0 ? [] : kind.make(site, { ...options, ...(params.holders ? { holders: params.holders } : {}) });
      const beginning = baseName(site.root).replace(/\.mullion$/, "");
      return {
        uri: workspace.texts.uri(site.root),
        files: made.map(one => ({ name: `${beginning}-${one.file}.${format.extension}`, content: format.render([one]) })),
        held: asked
          .filter(keypad => !keypads.includes(keypad))
          .map(keypad => ({
            keypad: keypad.id,
            label: keypad.label,
            reasons: (reasons.get(keypad) ?? []).map(({ message }) => message),
          })),
      };
    });
  },
};
