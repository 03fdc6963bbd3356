/** Moves a plain site's codes into sealed files: shows each line that changes, proves that nothing else does, writes, and tells what stays readable. */
import { dirname } from "node:path";
import { parse } from "../../grammar/parse.ts";
import type { FileId, SourceFile } from "../../shared/finding.ts";
import { emptyMemory } from "../../shared/keypad/fitted-memory.ts";
import { sameMemory } from "../../shared/keypad/memory-equal.ts";
import { must } from "../../shared/must.ts";
import { wantedMemory } from "../../shared/plan/wanted.ts";
import { isSealed, printNames } from "../../shared/sealed/names.ts";
import type { Split } from "../../shared/sealed/split.ts";
import { plainAfter, splitSite } from "../../shared/sealed/split.ts";
import { visible } from "../../shared/sheet/visible.ts";
import { loadSite } from "../../shared/site/load.ts";
import type { Site } from "../../shared/site/site.ts";
import { sayUnreadable } from "../cli/asked.ts";
import type { ExitStatus, OptionValues } from "../cli/command.ts";
import { textOf } from "../cli/command.ts";
import { secretsOf } from "../cli/findings/secrets.ts";
import { repositoryOf, shownPath } from "../cli/paths.ts";
import { openSite } from "../cli/sheets/open-site.ts";
import type { Surroundings } from "../cli/surroundings.ts";
import { fileIdOf, isThere, shelf } from "../files.ts";
import { ToolProblem } from "../tool-problem.ts";
import { writeFileWhole } from "../write-file.ts";
import type { Readers } from "./age.ts";
import { forWhom, newPassphrase, removePlain } from "./seal-file.ts";
import { readersOf, writeSealed } from "./write-sealed.ts";

/** @throws ToolProblem where the site cannot be split; nothing is written then */
export async function splitSiteAt(path: string, options: OptionValues, around: Surroundings): Promise<ExitStatus> {
  const { cwd } = around;
  const { site, problems } = openSite(path, undefined, cwd);
  if (sayUnreadable(problems, around)) return 2;
  const to = textOf(options, "to");
  const people = to === undefined ? `${site.root.slice(0, site.root.lastIndexOf("/") + 1)}people.mullion.age` : fileIdOf(to, cwd);
  if (!isSealed(people)) throw new ToolProblem(`${to} is no name for a sealed file; one ends in .mullion.age`);
  const split = splitSite(site, people);
  if ("not" in split) throw new ToolProblem(`${path} cannot be split: ${split.not}`);
  for (const file of split.sealed.keys())
    if (isThere(file)) throw new ToolProblem(`${shownPath(file, cwd)} is there already; name another one with --to, or move what is in it`);
  const after = plainAfter(site, split);
  mustMeanTheSame(site, split, after);

  // Before a word is said: without anybody to seal for there is nothing to do.
  const dry = options.dryRun === true;
  const readers = dry ? undefined : await readersFor(people, split, options, around);
  around.out(told(site, split, after, cwd));
  if (!readers) {
    around.out("nothing was written\n");
    return 0;
  }
  // What is sealed comes first: a run that is broken off leaves a code in two places, never in none.
  for (const [file, text] of split.sealed) await writeSealed(file, text, readers, cwd);
  for (const [file, text] of after)
    if (site.files.find(one => one.file === file)?.text !== text) writeFileWhole(file, text, shownPath(file, cwd));
  for (const file of split.gone) removePlain(file, shownPath(file, cwd));
  around.out(`${[...split.sealed.keys()].map(file => shownPath(file, cwd)).join(", ")}: ${forWhom(readers)}\n`);
  around.out(historyWords(repositoryOf(dirname(site.root)) !== undefined));
  return 0;
}

async function readersFor(people: FileId, split: Split, options: OptionValues, around: Surroundings): Promise<Readers> {
  if (options.passphrase === true) return { passphrase: await newPassphrase(shownPath(people, around.cwd), around) };
  return readersOf(people, [...split.sealed.keys()], around.cwd);
}

/** The site that is left, with what was sealed opened again, is the site that was there. */
function mustMeanTheSame(site: Site, split: Split, after: ReadonlyMap<FileId, string>): void {
  const texts = new Map([...after, ...split.sealed]);
  const plain = shelf();
  const again = loadSite(site.root, (file): SourceFile | undefined => {
    if (split.gone.includes(file)) return undefined;
    const text = texts.get(file);
    if (text === undefined) return site.files.some(one => one.file === file) ? plain.open(file) : undefined;
    return { file, text, ...parse(text), ...(isSealed(file) ? { sealed: { file, open: true } } : {}) };
  });
  const isSame = [...site.keypads.values()].every(keypad => {
    const other = again.keypads.get(keypad.id);
    if (!other || !keypad.model) return other !== undefined;
    const empty = emptyMemory();
    const [fitted, kept] = [keypad.fitted, other.fitted];
    return (
      sameMemory(wantedMemory(keypad, empty), wantedMemory(other, empty), keypad.model) &&
      fitted?.knows === kept?.knows &&
      fitted?.date === kept?.date &&
      sameMemory(fitted?.memory ?? empty, kept?.memory ?? empty, keypad.model)
    );
  });
  must(isSame && again.keypads.size === site.keypads.size, "a site that was split means what it meant");
  must(
    [...site.holders.values()].every(({ id, credentials }) => again.holders.get(id)?.credentials.length === credentials.length),
    "everybody of a site that was split is there with all that they had",
  );
}

/** Every line that goes and every one that comes, codes as dots; and what is sealed, by name. */
function told(site: Site, split: Split, after: ReadonlyMap<FileId, string>, cwd: string): string {
  const lines: string[] = [];
  for (const source of site.files) {
    const shown = shownPath(source.file, cwd);
    if (split.gone.includes(source.file)) lines.push(`${shown}: sealed as it is, and removed`);
    const edits = split.edits.filter(({ file }) => file === source.file);
    if (edits.length === 0) continue;
    lines.push(`${shown}:`);
    for (const { start, end, text } of edits) {
      const from = source.text.lastIndexOf("\n", start - 1) + 1;
      const lineBreak = source.text.indexOf("\n", end);
      // A cut that ends with its line's break takes whole lines; the next one stays.
      const to = end > start && source.text[end - 1] === "\n" ? end : lineBreak < 0 ? source.text.length : lineBreak;
      const hides = secretsOf(source);
      const before = hidden(source.text.slice(from, to), offset => hides(from + offset));
      const fresh = `${source.text.slice(from, start)}${text}${source.text.slice(end, to)}`;
      const isInsertion = start === end && from === start && text.endsWith("\n");
      const number = source.text.slice(0, from).split("\n").length;
      lines.push(`  line ${number}`);
      if (!isInsertion) lines.push(...asLines("-", before));
      lines.push(...asLines("+", isInsertion ? text : hidden(fresh, secretsOf({ file: source.file, text: fresh, ...parse(fresh) }))));
    }
  }
  for (const [file, text] of split.sealed) {
    const names = printNames(file, parse(text).tree, undefined).split("\n").slice(1, -1);
    lines.push(`${shownPath(file, cwd)}, sealed${names.length > 0 ? ", holds by name:" : ""}`, ...names.map(name => `  ${name}`));
  }
  const left = leftIn(site, after, cwd);
  if (left.length > 0) lines.push(`Look at these lines: digits of a code still stand there: ${left.join(", ")}`);
  return `${lines.join("\n")}\n`;
}

function asLines(sign: string, text: string): readonly string[] {
  const lines = text.split(/\r?\n|\r$/);
  if (lines.at(-1)?.trim() === "") lines.pop();
  return lines.map(line => `  ${sign} ${visible(line)}`.trimEnd());
}

function hidden(text: string, hides: (offset: number) => boolean): string {
  return [...text].reduce<{ shown: string; at: number }>(
    ({ shown, at }, sign) => ({ shown: shown + (hides(at) ? "•" : sign), at: at + sign.length }),
    { shown: "", at: 0 },
  ).shown;
}

/** Places of the plain files where a code of the site stands still, in a comment or a note; models say what keypads came with. */
function leftIn(site: Site, after: ReadonlyMap<FileId, string>, cwd: string): readonly string[] {
  const codes = new Set<string>();
  for (const { credentials } of site.holders.values()) for (const { digits } of credentials) if (digits !== undefined) codes.add(digits);
  for (const { installer } of site.keypads.values()) if (installer?.digits !== undefined) codes.add(installer.digits);
  for (const { memory } of site.fitted) {
    if (memory?.installer !== undefined) codes.add(memory.installer);
    for (const { code } of [...(memory?.slots.values() ?? []), ...(memory?.allRelay.values() ?? [])])
      if (code !== undefined) codes.add(code);
  }
  const places: string[] = [];
  for (const [file, text] of after) {
    const models = parse(text).tree.declarations.filter(({ kind }) => kind === "model");
    for (const { 0: digits, index } of text.matchAll(/\d{3,}/g))
      if (codes.has(digits) && !models.some(({ start, end }) => start <= index && index < end))
        places.push(`${shownPath(file, cwd)}:${text.slice(0, index).split("\n").length}`);
  }
  return [...new Set(places)];
}

function historyWords(inGit: boolean): string {
  const where = inGit
    ? "Git's history still has these codes in plain text, here and in every clone, and so do backups."
    : "Backups and copies of the old files still have these codes in plain text.";
  const then = inGit
    ? "Either take every code for known: issue new ones (mullion issue), type them, and be done; or write the history anew without these files (git filter-repo) and have every clone made afresh; or begin a new repository from here."
    : "Take every code for known that others could read, issue new ones (mullion issue) and type them, or see to it that those copies are gone.";
  return `${where}\n${then}\n`;
}
