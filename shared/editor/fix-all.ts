/** All the safe ways out of a file's findings at once: the first of each finding, as long as no two touch the same words. */
import { fixesFor } from "../checks/run.ts";
import type { Edit, Finding } from "../finding.ts";
import type { Site } from "../site/site.ts";

/** @param findings of this very `site`; a fix that would change another file than its finding's is left to the user */
export function safeEdits(site: Site, findings: readonly Finding[]): readonly Edit[] {
  const taken: Edit[] = [];
  for (const finding of findings) {
    const fix = fixesFor(finding, site).find(({ safe }) => safe);
    if (!fix || fix.edits.some(({ file }) => file !== finding.file)) continue;
    const isFree = fix.edits.every(edit => taken.every(other => edit.end < other.start || edit.start > other.end));
    if (isFree) taken.push(...fix.edits);
  }
  return taken;
}
