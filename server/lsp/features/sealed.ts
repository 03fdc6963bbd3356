/** Sealed files for an editor that has been given what opens them. */
import type { ResealResult, UnlockResult, UnsealResult } from "../../../shared/requests.ts";
import { baseName } from "../../../shared/site/paths.ts";
import { whyShut } from "../../unsealing.ts";
import { answer } from "../answer.ts";
import { fileIdOf } from "../uri.ts";
import type { Feature } from "./feature.ts";

const notHere = "sealed files cannot be opened in a browser";

export const sealed: Feature = {
  capability: {},
  register(connection, workspace) {
    const { sealed: files } = workspace.host;
    answer(connection, workspace, "mullion/unlock", "unlocking", async ({ secrets }): Promise<UnlockResult> => {
      if (!files) return secrets.length === 0 ? {} : { refused: notHere };
      const result = await files.unlock(secrets);
      workspace.unlocked(secrets.length === 0);
      return result;
    });
    answer(connection, workspace, "mullion/unseal", "a sealed file", async ({ uri }): Promise<UnsealResult> => {
      if (!files) return { refused: notHere };
      const file = fileIdOf(uri);
      const opened = await files.open(file);
      if (!opened) return { refused: `there is no ${baseName(file)}` };
      if ("text" in opened) return { text: opened.text };
      return { refused: `${baseName(file)} stays sealed: ${whyShut(opened)}` };
    });
    answer(connection, workspace, "mullion/reseal", "a sealed file", async ({ uri, text }): Promise<ResealResult> => {
      if (!files) return { refused: notHere };
      const file = fileIdOf(uri);
      const sites = await workspace.sitesOf(file);
      // A new record is in no site yet: the texts beside it say for whom the site is sealed.
      const beside = (sites.length > 0 ? sites : await workspace.allSites()).flatMap(({ site }) =>
        site.files.map(source => source.sealed?.file ?? source.file),
      );
      const folder = file.slice(0, file.lastIndexOf("/") + 1);
      const others = [...new Set(beside)].filter(each => sites.length > 0 || each.startsWith(folder));
      const refused = await files.seal(file, text, others);
      return refused === undefined ? {} : { refused };
    });
  },
};
