/**
 * The tree of a Mullion text: plain readonly values with offsets, nothing resolved. A tree survives `structuredClone`.
 *
 * Offsets are UTF-16 units into the text as it is (CRLF and a byte order mark stay). `end` is exclusive.
 * What a half-typed text lacks is `undefined`; a node is there as soon as the word that begins it is.
 */
export interface Span {
  readonly start: number;
  readonly end: number;
}

/** A name, number, date, unit or key exactly as written. */
export interface Word extends Span {
  readonly text: string;
}

/** A quoted text; `text` is what it says, escapes resolved. */
export interface Str extends Span {
  readonly text: string;
}

/** `// …` to the end of the line. `text` is what follows the two slashes; `alone`: nothing else stands on its line. */
export interface Comment extends Span {
  readonly text: string;
  readonly alone: boolean;
}

/** Something the grammar does not allow. `message` is in words of the language and never contains digits of a code. */
export interface Problem extends Span {
  readonly code: "syntax" | "merge-conflict";
  readonly message: string;
  /** The first spelling of a fact that is said twice, the other side of a conflict. */
  readonly related?: readonly (Span & { readonly message: string })[];
}

export interface SourceTree extends Span {
  readonly kind: "file";
  readonly declarations: readonly Declaration[];
  readonly comments: readonly Comment[];
}

export interface Parsed {
  readonly tree: SourceTree;
  readonly problems: readonly Problem[];
}

export type Declaration = Use | SiteDecl | PolicyDecl | HolderDecl | ModelDecl | KeypadDecl | FittedDecl | DoorDecl | SupplyDecl;

/** The first word of a declaration or fact, so that features can point at it. */
interface Said extends Span {
  readonly keyword: Word;
}

export interface Use extends Said {
  readonly kind: "use";
  readonly path?: Str;
}

export interface TextFact extends Said {
  readonly kind: "address" | "contact" | "note";
  readonly text?: Str;
}

export interface SiteDecl extends Said {
  readonly kind: "site";
  readonly label?: Str;
  readonly facts: readonly TextFact[];
  readonly body?: Span;
}

/* Holders */

export interface Until extends Said {
  readonly kind: "until";
  readonly date?: Word;
}

export interface CodeCredential extends Said {
  readonly kind: "code";
  readonly name?: Word;
  readonly digits?: Word;
  /** Written behind the code, or on a line of its own after it. */
  readonly until?: Until;
}

export interface TagCredential extends Said {
  readonly kind: "tag";
  readonly name?: Word;
  /** `8061262`, `123,00334` or `0x7B014E` as written. */
  readonly number?: Word;
  readonly mark?: Str;
  readonly lost?: Span;
  readonly until?: Until;
}

export type HolderFact = CodeCredential | TagCredential | Until | TextFact;

export interface HolderDecl extends Said {
  readonly kind: "holder";
  readonly name?: Word;
  readonly label?: Str;
  /** In the order written. An `until` here stands before the first code or tag and is the holder's. */
  readonly facts: readonly HolderFact[];
}

/* Keypads */

/** `u1` or `u1.tag`; a trailing dot with nothing behind it leaves `credential` undefined and `dot` set. */
export interface Held extends Span {
  readonly holder: Word;
  readonly dot?: Span;
  readonly credential?: Word;
}

export interface InstallerFact extends Said {
  readonly kind: "installer";
  readonly digits?: Word;
  readonly held?: Held;
}

export interface AllRelayFact extends Said {
  readonly kind: "all-relay";
  readonly number?: Word;
  readonly held?: Held;
  /** In a fitted or factory block: the digits themselves. */
  readonly digits?: Word;
  readonly unknown?: Span;
}

export interface CodeLengthFact extends Said {
  readonly kind: "code-length";
  readonly digits?: Word;
}

export interface SettingFact extends Said {
  readonly kind: "setting";
  readonly label?: Str;
  readonly value?: Word;
}

export interface Release extends Said {
  readonly kind: "release";
  /** `5` of `5s`. */
  readonly seconds?: Word;
  readonly toggle?: Span;
}

export interface Pair extends Span {
  readonly mode: "or" | "with";
  readonly word: Word;
  readonly held?: Held;
}

export interface Entry extends Span {
  readonly kind: "entry";
  readonly slot?: Word;
  readonly held?: Held;
  readonly pair?: Pair;
}

export interface RelayDecl extends Said {
  readonly kind: "relay";
  /** One number, or the members of a set as written (`1+2`). */
  readonly numbers: readonly Word[];
  readonly label?: Str;
  readonly spare?: Span;
  readonly noCodes?: Span;
  readonly release?: Release;
  readonly entries: readonly Entry[];
  /** The braces, where there are any. */
  readonly body?: Span;
}

export type KeypadFact = InstallerFact | AllRelayFact | CodeLengthFact | SettingFact | TextFact | RelayDecl;

export interface KeypadDecl extends Said {
  readonly kind: "keypad";
  readonly name?: Word;
  readonly label?: Str;
  readonly model?: Word;
  readonly facts: readonly KeypadFact[];
  readonly body?: Span;
}

/* Fitted records and factory blocks */

export interface FittedEntry extends Span {
  readonly kind: "fitted-entry";
  readonly slot?: Word;
  readonly unknown?: Span;
  readonly code?: Word;
  readonly tag?: { readonly number?: Word; readonly mark?: Str };
  /** Set where both stand: `code … or tag …`, `code … with tag …`. */
  readonly pair?: "or" | "with";
}

export interface FittedRelay extends Said {
  readonly kind: "fitted-relay";
  readonly numbers: readonly Word[];
  readonly label?: Str;
  readonly release?: Release;
  readonly entries: readonly FittedEntry[];
  readonly body?: Span;
}

export interface ModelRef extends Said {
  readonly kind: "model-ref";
  readonly name?: Word;
}

export type FittedFact = ModelRef | InstallerFact | AllRelayFact | CodeLengthFact | SettingFact | TextFact | FittedRelay;

export interface FittedDecl extends Said {
  readonly kind: "fitted";
  readonly keypad?: Word;
  readonly unknown?: Span;
  readonly date?: Word;
  readonly partly?: Span;
  readonly facts: readonly FittedFact[];
  readonly body?: Span;
}

/* Keypad models */

export type Element =
  /** A run of digits or one key: `31`, `OK`, `*`. */
  | ({ readonly kind: "keys"; readonly text: string } & Span)
  /** `{relay}`, `{seconds:2}`, `{tag:3+5}`: `width` holds what stands behind the colon. */
  | ({ readonly kind: "field"; readonly name: Word; readonly width?: readonly Word[] } & Span)
  /** `[present tag]`: `text` without the brackets, spaces folded. */
  | ({ readonly kind: "hand"; readonly text: string } & Span);

/** `factory 1` etc. are parsed by meaning in `shared/`; the tree keeps what each fact says in fields of its own. */
export type ModelFact =
  | (Said & { readonly kind: "keys"; readonly keys: readonly KeyListItem[] })
  | (Said & { readonly kind: "relays"; readonly relays: readonly RelayKeys[] })
  | (Said & { readonly kind: "slots"; readonly form: SlotsForm })
  | (Said & { readonly kind: "codes"; readonly lengths?: Lengths; readonly installer?: Lengths })
  | (Said & { readonly kind: "length"; readonly rule?: "follows installer code" | "set by entry" | "free" })
  | (Said & { readonly kind: "rewrite"; readonly rule?: "replaces" | "refused" })
  | (Said & { readonly kind: "twins"; readonly rule?: "refused" | "first fires" | "all fire" })
  | (Said & { readonly kind: "relength"; readonly rule?: "clears" | "keeps what was stored" })
  | (Said & { readonly kind: "release-range"; readonly from?: Word; readonly to?: Word; readonly toggle?: Word })
  | (Said & { readonly kind: "settle" | "lapse"; readonly seconds?: Word })
  | (Said & { readonly kind: "lockout"; readonly none?: Span; readonly tries?: Word; readonly seconds?: Word })
  | (Said & { readonly kind: "refused"; readonly shows?: Str })
  | (Said & { readonly kind: "cancel"; readonly template: readonly Element[] })
  | (Said & { readonly kind: "reset"; readonly what?: "everything" | "installer code"; readonly text?: Str })
  | (Said & {
      readonly kind: "setting-def";
      readonly label?: Str;
      readonly from?: Word;
      readonly to?: Word;
      readonly factory?: Word;
      readonly template: readonly Element[];
      readonly shows?: Str;
    })
  | (Said & { readonly kind: "tags"; readonly bits?: Word })
  | (Said & { readonly kind: "session"; readonly rule?: "one entry" })
  | (Said & { readonly kind: "listens"; readonly rule?: "from the first key" | "to the last keys" })
  | (Said & { readonly kind: "acts"; readonly rule?: "at once" | "after a pause" })
  | (Said & { readonly kind: "draws"; readonly amount?: Quantity })
  | (Said & { readonly kind: "contact-rating"; readonly current?: Quantity; readonly voltage?: Quantity })
  | OperationDecl
  | FactoryBlock
  | TextFact;

/** Words of an operation as written in a model, one space between them. */
export const operationNames = [
  "enter",
  "leave",
  "put code",
  "put tag",
  "clear slot",
  "clear code",
  "clear tag",
  "set installer",
  "set all-relay",
  "clear all-relay",
  "set release",
  "set length",
  "clear all",
  "open code",
  "open all-relay",
  "open tag",
  "open both",
] as const;
export type OperationName = (typeof operationNames)[number];

export interface OperationDecl extends Said {
  readonly kind: "operation";
  readonly operation: OperationName;
  /** The words of the name, as one span. */
  readonly name: Span;
  readonly template: readonly Element[];
  readonly shows?: Str;
  /** `wipes everything` behind the keys of `clear all`. */
  readonly wipes?: Span;
}

export interface FactoryBlock extends Said {
  readonly kind: "factory";
  readonly facts: readonly FittedFact[];
  readonly body?: Span;
}

/** `0..9` (a range of digit keys) or one key. */
export interface KeyListItem extends Span {
  readonly from: Word;
  readonly to?: Word;
}

/** `1 = 4`, `1+2 = 7`. */
export interface RelayKeys extends Span {
  readonly numbers: readonly Word[];
  readonly keys: readonly Element[];
}

/** `5 | 7 digits` is `{ either: [5, 7] }`, `4..8 digits` is `{ from, to }`. */
export interface Lengths extends Span {
  readonly either?: readonly Word[];
  readonly from?: Word;
  readonly to?: Word;
}

export interface SlotRange extends Span {
  readonly from: Word;
  readonly to: Word;
  /** The kind that the range is kept for; absent: for anything that goes into slots. */
  readonly kept?: "codes" | "tags" | "all-relay";
}

export interface SlotsForm extends Span {
  /** Undefined while half typed. */
  readonly addressing?: "per relay" | "shared" | "unnumbered" | "one per relay";
  readonly ranges: readonly SlotRange[];
  /** `500` of `500 unnumbered`. */
  readonly count?: Word;
  readonly holds?: "code or tag" | "code with tag";
}

export interface ModelDecl extends Said {
  readonly kind: "model";
  readonly name?: Word;
  readonly label?: Str;
  readonly facts: readonly ModelFact[];
  readonly body?: Span;
}

/* Policy */

export interface PolicyRule extends Said {
  readonly kind: "weak-codes" | "near-codes" | "guess-odds";
  /** `warn`, `refuse`, `allow`: may be said of any of the three. */
  readonly verdict?: "warn" | "refuse" | "allow";
  /** `2` of `near codes 2 digits`. */
  readonly digits?: Word;
  /** `1000` of `guess odds 1 in 1000`. */
  readonly oneIn?: Word;
}

export interface PolicyDecl extends Said {
  readonly kind: "policy";
  readonly rules: readonly PolicyRule[];
  readonly body?: Span;
}

/* Doors and supplies */

/** A number with its unit as written, `12 V`, `350 mA`, `22 AWG`. */
export interface Quantity extends Span {
  readonly value: Word;
  readonly unit?: Word;
}

export interface DoorFact extends Said {
  readonly kind: "lock" | "contact" | "cable" | "exit" | "route" | "release-on-alarm" | "near-people" | "note";
  /** The fixed words after the first, in the order written (`strike`, `fail-secure`, `closes to open`). */
  readonly words: readonly Word[];
  readonly quantities: readonly Quantity[];
  readonly text?: Str;
}

export interface DoorDecl extends Said {
  readonly kind: "door";
  readonly label?: Str;
  readonly facts: readonly DoorFact[];
  readonly body?: Span;
}

export interface SupplyFact extends Said {
  readonly kind: "battery" | "feeds" | "note";
  /** `for`, `down to`: they stand before the quantity that they are about. */
  readonly words: readonly Word[];
  readonly quantities: readonly Quantity[];
  /** What `feeds` names: a door by its label, a keypad by its name. */
  readonly feeds: readonly ({ readonly door: Str } | { readonly keypad: Word })[];
  readonly text?: Str;
}

export interface SupplyDecl extends Said {
  readonly kind: "supply";
  readonly name?: Word;
  readonly label?: Str;
  /** `AC` or `DC`, behind the volts. */
  readonly words: readonly Word[];
  readonly quantities: readonly Quantity[];
  readonly facts: readonly SupplyFact[];
  readonly body?: Span;
}
