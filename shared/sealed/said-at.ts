/** Where something about a sealed file is said: at the `use` that names it, or at the site that it is the record of. */
import type { Place, Sealed } from "../finding.ts";
import type { Site } from "../site/site.ts";

export function saidAt(site: Site, { file }: Pick<Sealed, "file">): Place {
  const use = site.uses.find(({ target, node }) => target === file && node.path !== undefined);
  if (use?.node.path) return { file: use.file, start: use.node.path.start, end: use.node.path.end };
  const [first] = site.files;
  const source = site.files.find(({ tree }) => site.node !== undefined && tree.declarations.includes(site.node)) ?? first;
  const span = site.node?.label ?? site.node?.keyword ?? { start: 0, end: 0 };
  return { file: source?.file ?? file, start: span.start, end: span.end };
}
