/** Files that use each other. */
import type { FileId } from "../finding.ts";
import { baseName } from "../site/paths.ts";
import type { Site } from "../site/site.ts";
import type { Found } from "./check.ts";
import { at, check, mullion } from "./check.ts";
import { remove } from "./edits.ts";

type Used = Site["uses"][number];

interface Cycle extends Found {
  readonly use: Used;
  /** The files of the ring in the order of their uses, the one that is found first. */
  readonly ring: readonly FileId[];
}

export const useCycle = check({
  code: "use-cycle",
  severity: "error",
  explain: {
    what: "Files that use each other, directly or through others.",
    why: "What belongs to the site and what is only used by it cannot be told apart, and moving one of the files breaks both.",
    triggers: mullion`
      //- main.mullion
      use "holders.mullion"

      site "Wren Yard"
      //- holders.mullion
      use "main.mullion"
        //^^^^^^^^^^^^^^ use-cycle
      holder u1 "Unit 1" code 4829
    `,
    quiet: mullion`
      //- main.mullion
      use "holders.mullion"

      site "Wren Yard"
      //- holders.mullion
      holder u1 "Unit 1" code 4829
    `,
  },
  *find(site): Iterable<Cycle> {
    const usesOf = new Map<FileId, Used[]>();
    for (const use of site.uses) {
      const list = usesOf.get(use.file) ?? [];
      usesOf.set(use.file, list);
      list.push(use);
    }
    // Depth first, each file once: a use of a file that is still open closes a ring.
    const open: FileId[] = [];
    const done = new Set<FileId>();
    const steps: { readonly file: FileId; readonly uses: Iterator<Used> }[] = [];
    const enter = (file: FileId) => {
      open.push(file);
      steps.push({ file, uses: (usesOf.get(file) ?? [])[Symbol.iterator]() });
    };
    for (const { file } of site.files) {
      if (!done.has(file)) enter(file);
      for (let step = steps.at(-1); step; step = steps.at(-1)) {
        const { value: use, done: end } = step.uses.next();
        if (end) {
          done.add(step.file);
          open.pop();
          steps.pop();
          continue;
        }
        if (!use.found || use.target === undefined || done.has(use.target)) continue;
        const begins = open.indexOf(use.target);
        if (begins < 0) enter(use.target);
        else yield cycle(use, open.slice(begins), usesOf);
      }
    }
  },
  message: ({ ring }) => {
    const names = ring.map(baseName);
    return names.length === 1 ? "this file uses itself" : `these files use each other: ${[...names, names[0]].join(", ")}`;
  },
  fixes: ({ file, use }, site) => [{ title: "Remove this use", edits: [remove(site, file, use.node)] }],
});

function cycle(use: Used, ring: readonly FileId[], usesOf: ReadonlyMap<FileId, readonly Used[]>): Cycle {
  const related = ring.slice(0, -1).flatMap((file, index) => {
    const next = usesOf.get(file)?.find(one => one.target === ring[index + 1]);
    return next ? [{ ...at(file, next.node), message: `uses ${baseName(ring[index + 1] ?? "")}` }] : [];
  });
  return { ...at(use.file, use.node.path ?? use.node), use, ring, related };
}
