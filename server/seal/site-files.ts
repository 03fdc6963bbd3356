/** The sealed files of a site: a record without recipients of its own is sealed for theirs. */
import type { FileId } from "../../shared/finding.ts";
import { loadSite } from "../../shared/site/load.ts";
import { siteOfRecord } from "../../shared/site/paths.ts";
import { isThere, shelf } from "../files.ts";

/** @param file any file of the site: a record (plain or sealed) stands for the site that it is the record of */
export function siteSealedFiles(file: FileId): readonly FileId[] {
  const named = siteOfRecord(file);
  if (named === undefined) return [];
  const root = [named, `${named}.age`].find(isThere);
  if (root === undefined) return [];
  return loadSite(root, shelf().open).files.flatMap(({ sealed }) => (sealed ? [sealed.file] : []));
}
