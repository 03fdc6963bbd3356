/** The files of a new site, ready to be written into an empty folder. */
import { newSite as filesOf } from "../../../shared/editor/new-site.ts";
import { answer, failed } from "../answer.ts";
import type { Feature } from "./feature.ts";

export const newSite: Feature = {
  capability: {},
  register(connection, workspace) {
    answer(connection, workspace, "mullion/newSite", "a new site", ({ name }) => {
      if (name.trim() === "") throw failed("a site needs a name");
      return { files: filesOf(name.trim(), workspace.host.random) };
    });
  },
};
