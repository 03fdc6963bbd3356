/** A `use` of a file that is not there. */
import type { Str } from "../../grammar/tree.ts";
import { resolvePath } from "../site/paths.ts";
import type { Found } from "./check.ts";
import { at, check, mullion } from "./check.ts";
import { replace } from "./edits.ts";

interface Missing extends Found {
  readonly path: Str;
  readonly target: string;
  readonly instead?: string;
}

export const useMissing = check({
  code: "use-missing",
  severity: "error",
  explain: {
    what: "A file that is used is not there.",
    why: "Holders and models that it declares are unknown here, so that nothing that needs them can be typed. A path is relative to the file that says it.",
    triggers: mullion`
      use "holders.mullion"
        //^^^^^^^^^^^^^^^^^ use-missing

      site "Wren Yard"
    `,
    quiet: mullion`
      //- main.mullion
      use "holders.mullion"

      site "Wren Yard"
      //- holders.mullion
      holder u1 "Unit 1" code 4829
    `,
  },
  *find(site): Iterable<Missing> {
    for (const { file, node, found, instead } of site.uses) {
      if (found || !node.path || node.path.text === "") continue;
      const target = resolvePath(file, node.path.text);
      yield { ...at(file, node.path), path: node.path, target, ...(instead === undefined ? {} : { instead }) };
    }
  },
  message: ({ path, instead }) => {
    if (instead !== undefined) return `there is no file ${path.text}; ${instead} is there`;
    const slash = path.text.includes("\\") ? "; paths are written with / here" : "";
    return `there is no file ${path.text}, looked for from the folder of this one${slash}`;
  },
  fixes: ({ file, path, instead }) =>
    instead === undefined
      ? []
      : [{ title: `Change to ${instead}`, edits: [replace(file, path, JSON.stringify(instead))], preferred: true, safe: true }],
});
