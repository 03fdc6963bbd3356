/** The sample sites, for the tests about samples, and the search for their codes in whatever was written. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { parse } from "../../grammar/parse.ts";
import type { SourceFile } from "../../shared/finding.ts";
import { loadSite } from "../../shared/site/load.ts";
import type { Site } from "../../shared/site/site.ts";

const folder = join(import.meta.dirname, "../../samples");

function sample(path: string): Site {
  return loadSite(path, (file): SourceFile | undefined => {
    try {
      const text = readFileSync(join(folder, file), "utf8");
      return { file, text, ...parse(text) };
    } catch {
      return undefined;
    }
  });
}

export function sampleSites(): readonly Site[] {
  return ["tannery-wharf/tannery-wharf.mullion", "curlew-court/curlew-court.mullion"].map(sample);
}

/** Every code of a site, and those that its keypads come with. */
export function codesOf(site: Site): readonly string[] {
  const held = [...site.holders.values()].flatMap(({ credentials }) => credentials.map(({ digits }) => digits));
  const factory = [...site.keypads.values()].map(({ model }) => model?.factory.installer);
  return [...new Set([...held, ...factory].filter(code => code !== undefined))];
}

/** Codes that stand in a text, digits together or one by one. */
export function standing(text: string, codes: readonly string[]): readonly string[] {
  const close = text.replace(/(?<=\b[0-9]) (?=[0-9]\b)/g, "");
  return codes.filter(code => new RegExp(`(?<![0-9])${code}(?![0-9])`).test(`${text}\n${close}`));
}
