/** Reviews one site in two files, or the sites under some paths since a git revision. */
import type { Place, SourceFile } from "../../shared/finding.ts";
import { reviewFormats } from "../../shared/review/formats/index.ts";
import type { Review } from "../../shared/review/review.ts";
import { isEmpty, isToType, reviewOf } from "../../shared/review/review.ts";
import type { Shown } from "../../shared/review/told.ts";
import { loadSite } from "../../shared/site/load.ts";
import { isFittedRecord } from "../../shared/site/paths.ts";
import { rootsOf } from "../../shared/site/roots.ts";
import type { Site } from "../../shared/site/site.ts";
import type { ReadProblem } from "../files.ts";
import { fileIdOf, isFolder, isThere, mullionFilesUnder, shelf } from "../files.ts";
import { linesOf } from "../lines.ts";
import { realPath, revisionAt } from "../revision.ts";
import { ToolProblem } from "../tool-problem.ts";
import { sayUnreadable } from "./asked.ts";
import type { ExitStatus, OptionValues } from "./command.ts";
import { textOf } from "./command.ts";
import { repositoryPaths, shownPath } from "./paths.ts";
import { openSite } from "./sheets/open-site.ts";
import type { Surroundings } from "./surroundings.ts";

interface Compared {
  readonly pairs: readonly (readonly [before: Site, after: Site])[];
  readonly problems: readonly ReadProblem[];
}

/** @throws ToolProblem where what is named is not there, then or now, or git cannot say */
export function reviewSites(paths: readonly string[], options: OptionValues, around: Surroundings): ExitStatus {
  const today = textOf(options, "today") ?? around.today();
  const since = textOf(options, "since");
  const { pairs, problems } = since === undefined ? twoFiles(paths, around) : sinceRevision(paths, since, around);
  const reviews = pairs.map(([before, after]) => reviewOf(before, after, today));
  // Of many sites only those that change are of interest.
  const told = reviews.length > 1 ? reviews.filter(review => !isEmpty(review)) : reviews;
  const format = reviewFormats.find(({ name }) => name === options.format) ?? reviewFormats[0];
  const isForPeople = options.format !== "json";
  if (format && (told.length > 0 || !isForPeople)) {
    const toPath = options.format === "text" ? (file: string) => shownPath(file, around.cwd) : repositoryPaths(around.cwd);
    around.out(format.render(told, { from: since ?? paths[0] ?? "", date: today, path: toPath, at: places(told) }));
  } else if (reviews.length === 0) around.out("There is no site here, then or now.\n");
  else around.out(`Nothing changes at ${reviews.length} ${reviews.length === 1 ? "site" : "sites"}.\n`);
  if (sayUnreadable(problems, around)) return 2;
  return options.exitCode === true && reviews.some(isToType) ? 1 : 0;
}

function twoFiles(paths: readonly string[], around: Surroundings): Compared {
  const [old, fresh, ...more] = paths;
  if (old === undefined || fresh === undefined || more.length > 0)
    throw new ToolProblem("name the old file and the new one, or a git revision with --since");
  const [before, after] = [openSite(old, undefined, around.cwd), openSite(fresh, undefined, around.cwd)];
  return { pairs: [[before.site, after.site]], problems: [...before.problems, ...after.problems] };
}

function sinceRevision(paths: readonly string[], revision: string, around: Surroundings): Compared {
  const now = shelf();
  const pairs: (readonly [Site, Site])[] = [];
  const problems: ReadProblem[] = [];
  const seen = new Set<string>();
  for (const path of paths) {
    const file = fileIdOf(path, around.cwd);
    const real = realPath(file);
    // A folder is asked for as something in it.
    const then = revisionAt(isFolder(file) ? `${real}/.` : real, revision);
    const { roots, asked } = rootsIn(path, file, real, then, now.open);
    for (const root of roots) {
      if (seen.has(root)) continue;
      seen.add(root);
      const [before, after] = [loadSite(root, then.shelf.open), loadSite(root, now.open)];
      // A model that no site uses opens nothing; a file that was asked for by name is reviewed whatever it is.
      const isSite = [before, after].some(site => site.node !== undefined || site.keypads.size + site.holders.size > 0);
      if (asked || isSite) pairs.push([before, after]);
    }
    problems.push(...then.shelf.problems);
  }
  return { pairs: movedTogether(pairs), problems: [...problems, ...now.problems] };
}

/** A site whose file went and one of the same name whose file came are one site that was moved, where only these two have the name. */
function movedTogether(pairs: Compared["pairs"]): Compared["pairs"] {
  const went = pairs.filter(([, after]) => after.files.length === 0);
  const came = pairs.filter(([before]) => before.files.length === 0);
  const goneOf = ([, after]: Compared["pairs"][number]) => {
    const old = went.filter(([before]) => before.label !== undefined && before.label === after.label);
    const fresh = came.filter(([, other]) => other.label === after.label);
    return old.length === 1 && fresh.length === 1 ? old[0] : undefined;
  };
  const moved = new Map(came.map(pair => [pair, goneOf(pair)]));
  const gone = new Set(moved.values());
  return pairs.filter(pair => !gone.has(pair)).map(pair => [moved.get(pair)?.[0] ?? pair[0], pair[1]] as const);
}

/** The sites of a path, then or now. */
function rootsIn(
  path: string,
  file: string,
  real: string,
  then: ReturnType<typeof revisionAt>,
  openNow: (file: string) => SourceFile | undefined,
): { readonly roots: readonly string[]; readonly asked: boolean } {
  if (!isFolder(file)) {
    if (isFittedRecord(real)) throw new ToolProblem(`${path} is a fitted record; name the site's file`);
    if (then.has(real) || isThere(real)) return { roots: [real], asked: true };
    const gone = rootsOf(then.under(real).flatMap(each => then.shelf.open(each) ?? []));
    if (gone.length === 0) throw new ToolProblem(`no such file or folder, then or now: ${path}`);
    return { roots: gone, asked: false };
  }
  const sourcesNow = mullionFilesUnder(real).files.flatMap(each => openNow(each) ?? []);
  const sourcesThen = then.under(real).flatMap(each => then.shelf.open(each) ?? []);
  return { roots: [...new Set([...rootsOf(sourcesNow), ...rootsOf(sourcesThen)])].sort(), asked: false };
}

/** Lines and columns in the new texts. */
function places(reviews: readonly Review[]): Shown["at"] {
  const texts = new Map(reviews.flatMap(({ after }) => after.files.map(({ file, text }) => [file, text] as const)));
  const known = new Map<string, ReturnType<typeof linesOf>>();
  return ({ file, start }: Place) => {
    const lines = known.get(file) ?? linesOf(texts.get(file) ?? "");
    known.set(file, lines);
    return lines.at(start);
  };
}
