/** The findings that the editor shows: exactly what `mullion check` prints, gathered by file. */
import type { FileId, Finding } from "../../shared/finding.ts";
import type { SiteAtWork } from "./sites.ts";
import type { Workspace } from "./workspace.ts";

/** Findings of one file, of every site that it belongs to; only syntax for one side of a comparison. */
export async function findingsIn(workspace: Workspace, file: FileId): Promise<readonly Finding[]> {
  const opened = workspace.texts.opened(file);
  if (opened && !workspace.isEdited(opened.uri)) return syntaxFindings(workspace, file);
  if (!workspace.isShown(file)) return [];
  const sites = await workspace.sitesOf(file);
  const own = sites.flatMap(work => findingsOfSite(workspace, work));
  return once([...own, ...(await workspace.findingsAcross())].filter(finding => finding.file === file));
}

/** Findings of every file that is open or under an open folder, files without any included. */
export async function findingsByFile(workspace: Workspace): Promise<ReadonlyMap<FileId, readonly Finding[]>> {
  const found = new Map<FileId, Finding[]>();
  for (const work of await workspace.allSites()) {
    for (const { file } of work.site.files) if (workspace.isShown(file) && !found.has(file)) found.set(file, []);
    for (const finding of findingsOfSite(workspace, work)) found.get(finding.file)?.push(finding);
  }
  for (const finding of await workspace.findingsAcross()) found.get(finding.file)?.push(finding);
  const all = new Map<FileId, readonly Finding[]>([...found].map(([file, findings]) => [file, once(findings)]));
  for (const { file, uri } of workspace.texts.allOpened()) if (!workspace.isEdited(uri)) all.set(file, syntaxFindings(workspace, file));
  return all;
}

/** A fault in the checks of one site leaves the findings of the others as they are. */
function findingsOfSite(workspace: Workspace, work: SiteAtWork): readonly Finding[] {
  try {
    return work.findings();
  } catch (fault) {
    workspace.faults.report("checks", fault);
    return [];
  }
}

function syntaxFindings(workspace: Workspace, file: FileId): readonly Finding[] {
  return (workspace.texts.now(file)?.problems ?? []).map(({ code, start, end, message, related }) => ({
    file,
    start,
    end,
    code,
    message,
    severity: "error",
    related: (related ?? []).map(place => ({ ...place, file })),
    keypads: [],
    found: undefined,
  }));
}

/** A file that several sites use has its own findings once. */
function once(findings: readonly Finding[]): readonly Finding[] {
  const seen = new Map<string, Finding>();
  for (const finding of findings) {
    const key = JSON.stringify([finding.start, finding.end, finding.code, finding.message]);
    if (!seen.has(key)) seen.set(key, finding);
  }
  return [...seen.values()].sort((one, other) => one.start - other.start || one.end - other.end);
}
