/** What an editor, a sheet and a paper make of any text: nothing is thrown, every place lies within. */
import { expectedAt } from "../../../grammar/expected.ts";
import { pathTo } from "../../../grammar/path.ts";
import type { Span } from "../../../grammar/tree.ts";
import { findingsOf } from "../../../shared/checks/run.ts";
import { coloredWords } from "../../../shared/editor/coloring.ts";
import { describe, suggestionsAt } from "../../../shared/editor/complete/complete.ts";
import { safeEdits } from "../../../shared/editor/fix-all.ts";
import { foldsOf } from "../../../shared/editor/folds.ts";
import { hoverAt } from "../../../shared/editor/hover.ts";
import { keypadLines } from "../../../shared/editor/keypad-lines.ts";
import { definitionsOf, mentionAt, mentionsOf } from "../../../shared/editor/names.ts";
import { renameEdits } from "../../../shared/editor/rename.ts";
import { signatureAt } from "../../../shared/editor/signature.ts";
import { widening } from "../../../shared/editor/widening.ts";
import type { Finding, SourceFile } from "../../../shared/finding.ts";
import { papers } from "../../../shared/papers/index.ts";
import { holdsBack } from "../../../shared/plan/held-back.ts";
import type { CannotPlan, Plan } from "../../../shared/plan/plan.ts";
import { planFor } from "../../../shared/plan/start.ts";
import { formats } from "../../../shared/sheet/formats/index.ts";
import { sheetOf } from "../../../shared/sheet/sheet.ts";
import type { Keypad, Site } from "../../../shared/site/site.ts";
import { waysIn } from "../../../shared/who/who.ts";
import type { Random } from "../random.ts";
import { holds, today } from "./holds.ts";

/** Now and then what an editor asks, more seldom what is printed: they cost more than the checks. */
export function checkUse(source: SourceFile, site: Site, random: Random): void {
  const plans = plansOf(site);
  if (random.oneIn(3)) checkWords(source);
  if (random.oneIn(4)) for (let places = random.between(1, 3); places > 0; places--) checkPlace(source, site, plans, random);
  if (random.oneIn(8)) checkSheets(site, plans);
}

const insides = /undefined|NaN|\[object/;

type Plans = (keypad: Keypad) => Plan | CannotPlan | undefined;

/** A plan where no error holds it back, as the faces make it. */
function plansOf(site: Site): Plans {
  let findings: readonly Finding[] | undefined;
  const known = new Map<Keypad, Plan | CannotPlan>();
  return keypad => {
    if (!keypad.model) return undefined;
    findings ??= findingsOf(site, { today });
    const held = findings.some(finding => holdsBack(finding, keypad));
    const plan = known.get(keypad) ?? (held ? { cannot: "an error holds its sheet back" } : planFor(site, keypad));
    known.set(keypad, plan);
    return plan;
  };
}

/** Coloured words follow each other and never overlap; folds lie within. */
function checkWords({ text, tree }: SourceFile): void {
  let before = 0;
  for (const { start, end } of coloredWords(text, tree)) {
    holds(start >= before && end > start && end <= text.length, `a coloured word from ${start} to ${end} overlaps the one before it`);
    holds(!/[\r\n]/.test(text.slice(start, end)), `a coloured word from ${start} to ${end} goes over a line end`);
    before = end;
  }
  for (const fold of foldsOf(tree, text)) checkSpan(fold, text, "a fold");
}

function checkPlace(source: SourceFile, site: Site, plan: Plans, random: Random): void {
  const { text, tree } = source;
  const offset = random.below(text.length + 1);
  const expected = expectedAt(text, offset);
  checkSpan(expected, text, "what is being typed");
  holds(text.slice(expected.start, offset) === expected.typed, "what is being typed is not what stands before the cursor");
  holds(pathTo(tree, offset)[0] === tree, "the way to a place does not begin at the file");
  let inner: Span | undefined;
  for (const span of widening(tree, text, offset)) {
    checkSpan(span, text, "a selection");
    holds(!inner || (span.start <= inner.start && span.end >= inner.end), "a wider selection is narrower");
    inner = span;
  }
  const said = hoverAt({ site, source, offset, today, maskCodes: random.oneIn(2), plan });
  if (said) {
    checkSpan(said, text, "a hover");
    holds(insides.test(text) || !insides.test(said.markdown), "a hover speaks of the program's insides");
  }
  const { replace, items } = suggestionsAt(site, source, offset, ["/models/dunlin-3.mullion", "/a b.mullion"]);
  checkSpan(replace, text, "what a suggestion replaces");
  holds(replace.start <= offset && offset <= replace.end, "what a suggestion replaces is not at the cursor");
  for (const item of items) {
    holds(item.label !== "", "a suggestion has no label");
    if (item.about && random.oneIn(8)) describe(site, item.about, today);
  }
  const signature = signatureAt(site, source, offset);
  for (const field of signature?.fields ?? []) checkSpan(field, signature?.label ?? "", "a field of a signature");
  const mention = mentionAt(tree, offset);
  if (mention) {
    for (const place of [...mentionsOf(site, mention.named), ...definitionsOf(site, mention.named)]) checkIn(site, place, "a mention");
    const edits = renameEdits([site], mention, random.one(["renamed", "u1", "relay", "", "1", "a b"]));
    if (!("refused" in edits)) for (const edit of edits) checkIn(site, edit, "an edit of a renaming");
  }
  for (const keypad of site.keypads.values())
    for (const { start, end, preview } of keypadLines(site, keypad, { hideCodes: random.oneIn(2) })) {
      checkIn(site, { start, end, file: keypad.file }, "a line of a keypad");
      preview();
    }
}

/** Sheets in every format, papers, the table of who opens what, and what can be mended without looking. */
function checkSheets(site: Site, plan: Plans): void {
  const findings = findingsOf(site, { today });
  for (const edit of safeEdits(site, findings)) checkIn(site, edit, "a safe edit");
  waysIn(site, today);
  for (const keypad of site.keypads.values()) {
    const planned = plan(keypad);
    if (!planned || "cannot" in planned) continue;
    const sheet = sheetOf(site, keypad, planned, { hideCodes: false, showInstaller: false, today });
    for (const format of formats) holds(format.render([sheet]) !== "", `a sheet as ${format.name} is empty`);
  }
  for (const paper of papers) if (paper.name !== "envelope") paper.make(site, { today, hideCodes: false });
}

function checkSpan({ start, end }: Span, text: string, what: string): void {
  holds(start >= 0 && start <= end && end <= text.length, `${what} from ${start} to ${end} is not within ${text.length}`);
}

function checkIn(site: Site, place: Span & { readonly file: string }, what: string): void {
  const source = site.files.find(({ file }) => file === place.file);
  holds(source !== undefined, `${what} is in a file that the site does not read`);
  checkSpan(place, source.text, what);
}
