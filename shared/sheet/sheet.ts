/** The run sheet of one keypad: what to type now, in words and keys, from a plan that is proved. Data first; formats render it. */
import type { KeyGroup, Memory, TagId } from "../keypad/memory.ts";
import type { Model, RelaySet } from "../keypad/model.ts";
import type { Plan, PlanEntry, PlanSession, Start } from "../plan/plan.ts";
import { longestPause, minutesOf } from "../plan/time.ts";
import type { Day, Keypad, Site } from "../site/site.ts";
import type { KnownGood } from "./before.ts";
import { beforeYouStart } from "./before.ts";
import { blankPatterns, relayKeyWords } from "./blanks.ts";
import { rowSeconds } from "./duration.ts";
import type { Names } from "./names.ts";
import { namesOf, relayOf, slotOf } from "./names.ts";
import { sheetNumber } from "./number.ts";
import { inPace, paceWords } from "./pace.ts";
import { proveSheet } from "./proof.ts";
import { refusalWords } from "./refusal.ts";
import { becauseWords, credentialOf, sentence } from "./sentence.ts";
import type { Sheet, SheetEntry, SheetSession, Try } from "./shape.ts";
import type { Show } from "./show.ts";
import { shownGroups } from "./show.ts";
import type { Trial } from "./tries.ts";
import { changedTries, forPaper, trialsOf } from "./tries.ts";
import { visible } from "./visible.ts";

export interface SheetOptions {
  /** Every code becomes dots. */
  readonly hideCodes: boolean;
  /** The installer code in digits; has no effect where codes are hidden. */
  readonly showInstaller: boolean;
  readonly today: Day;
  /** Of the repository that the text is in. */
  readonly commit?: string;
  /** The secret that the number of the sheet is made with; see `sheetNumber`. */
  readonly numberKey?: string;
}

/**
 * The sheet of a plan.
 *
 * @throws BrokenInvariant naming an entry by its number, where the printed keys do not replay to what the text wants.
 */
export function sheetOf(site: Site, keypad: Keypad, plan: Plan, options: SheetOptions): Sheet {
  const { model } = plan;
  const names = namesOf(site, keypad, model, plan.before, plan.target);
  const show = showOf(plan, options);
  const trials = trialsOf(site, keypad, plan, names, heldBefore(keypad, plan));
  const tries = changedTries(trials, names, plan, show);
  const printed = forPaper(tries, plan);
  const pace = tries.some(([, one]) => one.opens.length === 0) ? paceWords(model.lockout) : undefined;
  const paperTries = inPace(printed, model.lockout);
  const users = neededBy(plan);
  const entries = plan.sessions.flatMap(session => session.entries);
  const between = (from: number, until: number) =>
    entries.filter(({ n }) => from <= n && n <= until).reduce((sum, { groups }) => sum + rowSeconds(groups), 0);
  const known = plan.start.from === "fitted" ? knownGood(trials) : undefined;
  const blanks = blankPatterns(model, plan.target);
  const trySeconds = paperTries.reduce((sum, one) => sum + one.seconds + (one.waitSeconds ?? 0), 0);
  return {
    number: sheetNumber(keypad.id, plan, {
      hideCodes: options.hideCodes,
      showInstaller: options.showInstaller,
      ...(options.numberKey === undefined ? {} : { key: options.numberKey }),
    }),
    site: visible(site.label ?? site.root.replace(/^.*\//, "")),
    keypad: keypad.id,
    label: visible(keypad.label),
    model: model.id,
    modelLabel: visible(model.label),
    from: fromOf(plan.start),
    start: plan.start,
    startWords: startWords(plan.start),
    date: options.today,
    ...(options.commit === undefined ? {} : { commit: visible(options.commit) }),
    codesHidden: options.hideCodes,
    before: beforeYouStart(site, keypad, plan, names, show, tagsToTry(tries, printed), known, between),
    sessions: plan.sessions.map((session, index) => sessionOf(plan, session, index, users, names, show)),
    tries: inPace(
      tries.map(([, one]) => one),
      model.lockout,
    ),
    paperTries,
    triesLeftOut: tries.length - printed.length,
    ...(pace === undefined ? {} : { pace }),
    blanks,
    relayKeys: relayKeyWords(model, blanks, wiredDoors(keypad, names)),
    counts: plan.counts,
    seconds: plan.seconds,
    minutes: minutesOf(plan.seconds + trySeconds),
    proof: proveSheet(plan),
  };
}

/** Tags that a printed try presents and that must open: what is withdrawn is tried only if it is at hand. */
function tagsToTry(tries: readonly (readonly [Trial, Try])[], printed: readonly Try[]): readonly TagId[] {
  const kept = new Set(printed);
  const ids = tries.flatMap(([trial, one]) => (kept.has(one) && one.opens.length > 0 ? trial.ids : []));
  return [...new Set(ids.flatMap(id => (id.startsWith("tag ") ? [id.slice(4)] : [])))];
}

/** A reset forgets what was fitted, yet whoever had a code then must not get in: it is tried like a withdrawn one. */
function heldBefore(keypad: Keypad, plan: Plan): readonly Memory[] {
  const fitted = plan.start.from === "reset" ? keypad.fitted?.memory : undefined;
  return fitted ? [plan.before, fitted] : [plan.before];
}

/** Relays and sets that something is wired to, with their doors. */
function wiredDoors(keypad: Keypad, names: Names): ReadonlyMap<RelaySet, string> {
  return new Map(keypad.relays.filter(relay => !relay.spare).map(({ set }) => [set, names.relay(set)]));
}

function showOf(plan: Plan, options: SheetOptions): Show {
  const changes = plan.sessions.some(session => session.changesInstaller) && plan.target.installer !== plan.before.installer;
  return {
    hideCodes: options.hideCodes,
    showInstaller: options.showInstaller,
    ...(changes && plan.target.installer !== undefined ? { newInstaller: plan.target.installer } : {}),
  };
}

function startWords(start: Start): string {
  switch (start.from) {
    case "factory":
      return "a keypad as it leaves the factory";
    case "reset":
      return "a keypad that has just been reset";
    case "unknown":
      return "a keypad of which nothing is known";
    case "fitted": {
      if (start.text !== undefined) return `what ${visible(start.text)} says, taken as typed`;
      const when = start.date === undefined ? "what was fitted" : `what was fitted on ${start.date}`;
      return start.knows === "part" ? `${when}, as far as it is known` : when;
    }
  }
}

function fromOf(start: Start): Sheet["from"] {
  if (start.from !== "fitted") return start.from;
  return start.text === undefined ? (start.date ?? "fitted") : "text";
}

/** The first code that opens the same before and after, else the first that opens before. */
function knownGood(trials: readonly Trial[]): KnownGood | undefined {
  const opening = trials.filter(trial => trial.opensBefore.length > 0 && trial.ids.every(id => id.startsWith("code ")));
  const found = opening.find(trial => trial.opensBefore.join() === trial.opensAfter.join()) ?? opening[0];
  return found && { who: found.who, groups: found.groups, opens: found.opensBefore };
}

function sessionOf(plan: Plan, session: PlanSession, index: number, users: Users, names: Names, show: Show): SheetSession {
  const { model } = plan;
  const enterShows = model.operations.get("enter")?.shows;
  const leaveShows = model.operations.get("leave")?.shows;
  const enterNote = plan.sessions[index - 1]?.changesInstaller
    ? "Enter with the new installer code. If the new one does not enter, try the old one before anything else."
    : undefined;
  const leaveNote = leaveWords(plan, session, index);
  return {
    number: index + 1,
    enter: shownGroups(session.enter, show),
    ...(enterShows === undefined ? {} : { enterShows: visible(enterShows) }),
    ...(enterNote === undefined ? {} : { enterNote }),
    entries: session.entries.map(entry => entryOf(plan, entry, users, names, show)),
    leave: shownGroups(session.leave, show),
    ...(leaveShows === undefined || session.leave.length === 0 ? {} : { leaveShows: visible(leaveShows) }),
    ...(leaveNote === undefined ? {} : { leaveNote }),
  };
}

function leaveWords(plan: Plan, session: PlanSession, index: number): string | undefined {
  const words: string[] = [];
  if (session.leave.length === 0) {
    if (plan.model.session === "one entry") words.push("Programming mode ends by itself after the entry.");
    else if (plan.model.lapseSeconds !== undefined)
      words.push(`Wait ${plan.model.lapseSeconds} s without a key: programming mode ends by itself.`);
  }
  if (session.changesInstaller && index === plan.sessions.length - 1)
    words.push("Then enter once with the new installer code. If the new one does not enter, try the old one before anything else.");
  return words.length === 0 ? undefined : words.join(" ");
}

function entryOf(plan: Plan, entry: PlanEntry, users: Users, names: Names, show: Show): SheetEntry {
  const { n, operation } = entry;
  const relay = relayOf(operation);
  const slot = slotOf(operation);
  const credential = credentialOf(operation, names);
  const because = becauseWords(entry.because);
  const lapse = lapseWords(plan.model, entry.groups);
  return {
    n,
    operation: operation.operation,
    keys: shownGroups(entry.groups, show),
    text: sentence(operation, names, plan.model),
    ...(relay === undefined ? {} : { relay, relayLabel: names.relay(relay) }),
    ...(slot === undefined ? {} : { slot: names.slot(slot) }),
    ...(credential === undefined ? {} : { holder: credential.holder.id, credential: credential.path }),
    ...(entry.shows === undefined ? {} : { shows: visible(entry.shows) }),
    refusal: refusalWords(plan.model),
    repeatable: entry.repeatable,
    skippable: entry.skippable,
    needs: entry.needs,
    neededBy: users.get(n) ?? [],
    ...(because === undefined ? {} : { because }),
    ...(lapse === undefined ? {} : { lapse }),
  };
}

/** Entries that may not be taken without another one, by the other's number. */
type Users = ReadonlyMap<number, readonly number[]>;

function neededBy(plan: Plan): Users {
  const users = new Map<number, number[]>();
  for (const { n, needs } of plan.sessions.flatMap(session => session.entries))
    for (const need of needs) {
      const found = users.get(need);
      if (found) found.push(n);
      else users.set(need, [n]);
    }
  return users;
}

/** Said where a wait inside an entry, which nobody can shorten, is longer than the keypad listens. */
function lapseWords(model: Model, groups: readonly KeyGroup[]): string | undefined {
  if (model.lapseSeconds === undefined) return undefined;
  const longest = longestPause(groups);
  if (longest <= model.lapseSeconds) return undefined;
  return `Takes ${Math.ceil(longest)} s between two keys, longer than the ${model.lapseSeconds} s after which programming mode ends: the model may be wrong.`;
}
