/** The texts that everything starts from: the samples and the texts that the grammar is tested with, by the name that `use` knows them by. */
import { globSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { parse } from "../../../grammar/parse.ts";
import type { FileId, SourceFile } from "../../../shared/finding.ts";

const root = join(import.meta.dirname, "../../..");

function textsUnder(folder: string): ReadonlyMap<FileId, string> {
  const names = globSync("**/*.mullion", { cwd: join(root, folder) }).sort();
  return new Map(names.map(name => [`/${name.replaceAll("\\", "/")}`, readFileSync(join(root, folder, name), "utf8")]));
}

/** In the folders that they use each other by: `/tannery-wharf/tannery-wharf.mullion`. */
export const samples: ReadonlyMap<FileId, string> = textsUnder("samples");

/** `/fixtures/site.mullion`. */
const fixtures = new Map([...textsUnder("tests/grammar/fixtures")].map(([name, text]) => [`/fixtures${name}`, text]));

export const corpus: readonly { readonly file: FileId; readonly text: string }[] = [...samples, ...fixtures].map(([file, text]) => ({
  file,
  text,
}));

const parsed = new Map<FileId, SourceFile>(corpus.map(({ file, text }) => [file, { file, text, ...parse(text) }]));

/** Opens what lies around the text that is tried, which stands for the file of its name. */
export function around(tried: SourceFile): (file: FileId) => SourceFile | undefined {
  return file => (file === tried.file ? tried : parsed.get(file));
}
