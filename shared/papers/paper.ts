/** A paper beside the run sheet, as values: every word of it. The formats only set it out. */
import type { SheetGroup } from "../sheet/shape.ts";
import type { Day, Keypad, Site } from "../site/site.ts";

export interface Paper {
  /** What its file is called after the site's name: `register`, `slip-u1`. Never holds a code. */
  readonly file: string;
  /** "Register", "Slip for a holder". */
  readonly title: string;
  readonly site: string;
  /** Whom or what it is about, where that is not the whole site. */
  readonly about?: string;
  readonly date: Day;
  readonly parts: readonly Part[];
}

export type Part =
  | { readonly is: "heading"; readonly text: string }
  | { readonly is: "words"; readonly text: string }
  /** What has to be read before anything is done. */
  | { readonly is: "caution"; readonly text: string }
  | { readonly is: "facts"; readonly facts: readonly Fact[] }
  | { readonly is: "list"; readonly items: readonly string[]; readonly tick?: boolean }
  | { readonly is: "table"; readonly head: readonly string[]; readonly rows: readonly (readonly string[])[]; readonly tick?: boolean }
  /** One way in: the door, what is keyed or presented there, and what is to be known of it. */
  | { readonly is: "way"; readonly door: string; readonly keys: readonly SheetGroup[]; readonly says: readonly string[] }
  /** Lines to fill in by hand; `unit` stands behind the line. */
  | { readonly is: "blanks"; readonly blanks: readonly { readonly label: string; readonly unit?: string }[] }
  /** A code alone, as large as the paper allows. */
  | { readonly is: "code"; readonly label: string; readonly text: string }
  | { readonly is: "signatures"; readonly names: readonly string[] }
  /** What follows begins a new page. */
  | { readonly is: "page" };

export type Fact = readonly [name: string, says: string];

export interface PaperOptions {
  readonly today: Day;
  /** Every code becomes dots. */
  readonly hideCodes: boolean;
  /** Those that the paper is about; all of the site's without it. */
  readonly keypads?: readonly Keypad[];
  /** Ids of the holders that the paper is about; all of the site's without it. */
  readonly holders?: readonly string[];
  /** The same site with an earlier record, for a visit that is over: what was fitted before. */
  readonly earlier?: Site;
}

/** A kind of paper. */
export interface PaperKind {
  readonly name: "register" | "slips" | "visit" | "handover" | "envelope";
  /** Every paper of this kind: one for the site, or one for each holder or keypad. */
  make(site: Site, options: PaperOptions): readonly Paper[];
}
