/** What a check is: its code, its words, its two examples, what it finds in a site and the ways out. */
import type { FileId, Finding, Fix, Place, Severity } from "../finding.ts";
import type { Allowance, Day, Keypad, Site } from "../site/site.ts";

/** What a check is told from outside. */
export interface CheckContext {
  readonly today: Day;
  /** More findings than this are counted, not listed; 10,000 unless said. */
  readonly mostFindings?: number;
}

/** Findings that come after those that are kept, tallied: of the errors, which keypads they hold back. */
export interface Beyond {
  count: number;
  errors: number;
  readonly keypads: Set<string>;
  everyKeypad: boolean;
}

/** What the checks that come last are told besides: what the others found in the order of the text, and which allowances had an effect. */
export interface SoFar {
  readonly findings: readonly Finding[];
  readonly beyond: Readonly<Beyond>;
  readonly used: ReadonlySet<Allowance>;
  /** Codes of the checks that look over several sites: one site alone cannot say what an allowance of theirs does. */
  readonly across: ReadonlySet<string>;
  /** Codes of the checks that are not run, since the site has a sealed file that is shut and they need what is in it. */
  readonly notRun: ReadonlySet<string>;
}

/** One thing found: where, and what its message and its fixes need. */
export interface Found extends Place {
  /** Where it differs from the check's own. */
  readonly severity?: Severity;
  readonly related?: Finding["related"];
  readonly tags?: Finding["tags"];
  /** Ids of the keypads whose sheet it holds back when it is an error; every keypad of the site where unsaid. */
  readonly keypads?: readonly string[];
}

export interface Explanation {
  /** One sentence, as the table of the README has it. */
  readonly what: string;
  /** What happens at the door, or to the record, when it is left so. */
  readonly why: string;
  /** Mullion text with marks under what is found. It may use the model `tiny`: one relay, three slots, codes of four digits. */
  readonly triggers: string;
  /** Mullion text in which nothing is found. */
  readonly quiet: string;
  /** What the examples are checked with, where it matters. */
  readonly context?: Partial<CheckContext>;
}

/** Something that other sites may have too. `key` is compared and never shown: it may be a code. */
export interface SeenAt extends Place {
  readonly key: string;
  /** Whose it is, in words. */
  readonly who: string;
  /** The same person's everywhere is nothing to find: told by this, where it is given. */
  readonly person?: string;
  readonly keypads: readonly string[];
}

/** The part of a check that looks over several sites. */
export interface AcrossSites {
  readonly severity: Severity;
  sees(site: Site): Iterable<SeenAt>;
  /** `others` in words, each with its site. Never contains a code. */
  message(first: SeenAt, others: readonly string[]): string;
}

export interface CheckText<C extends string, F extends Found> {
  readonly code: C;
  readonly severity: Severity;
  /** Where the severity differs, in words for the table. */
  readonly exceptions?: string;
  /** Comes after the others, and is told what they found. */
  readonly last?: true;
  /** Needs digits, dates, numbers of tags or a record: not run where a sealed file of the site is shut, which is said once for each file. */
  readonly needsOpen?: true;
  readonly explain: Explanation;
  find(site: Site, context: CheckContext, soFar: SoFar): Iterable<F>;
  /** Never contains a code. */
  message(found: F): string;
  fixes?(found: F, site: Site): readonly Fix[];
  readonly across?: AcrossSites;
}

export interface Check<C extends string = string> {
  readonly code: C;
  readonly severity: Severity;
  readonly exceptions?: string;
  readonly last?: true;
  readonly needsOpen?: true;
  readonly explain: Explanation;
  /** In no particular order. */
  find(site: Site, context: CheckContext, soFar: SoFar): Iterable<Finding>;
  /** `finding` is one of this check's, found in this very `site`. */
  fixes(finding: Finding, site: Site): readonly Fix[];
  readonly across?: AcrossSites;
}

export function check<const C extends string, F extends Found>(text: CheckText<C, F>): Check<C> {
  return {
    code: text.code,
    severity: text.severity,
    ...(text.exceptions === undefined ? {} : { exceptions: text.exceptions }),
    ...(text.last ? { last: text.last } : {}),
    ...(text.needsOpen ? { needsOpen: text.needsOpen } : {}),
    explain: text.explain,
    ...(text.across ? { across: text.across } : {}),
    *find(site, context, soFar) {
      for (const found of text.find(site, context, soFar)) {
        yield {
          file: found.file,
          start: found.start,
          end: found.end,
          code: text.code,
          severity: found.severity ?? text.severity,
          message: text.message(found),
          related: found.related ?? [],
          ...(found.tags ? { tags: found.tags } : {}),
          keypads: found.keypads ?? [],
          found,
        };
      }
    },
    // What `found` holds is opaque to all but the check that made it.
    // A finding over several sites holds nothing to make a fix of.
    fixes: (finding, site) => (finding.found === undefined ? [] : (text.fixes?.(finding.found as F, site) ?? [])),
  };
}

/** A place in a file. */
export function at(file: FileId, span: { readonly start: number; readonly end: number }): Place {
  return { file, start: span.start, end: span.end };
}

/** For errors that touch one keypad and no other. */
export function only(keypad: Keypad): { readonly keypads: readonly string[] } {
  return { keypads: [keypad.id] };
}

/** Mullion text in TypeScript, as it stands between the backticks. */
export const mullion: (text: TemplateStringsArray) => string = text => String.raw(text);
