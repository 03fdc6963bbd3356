/** A site with everything resolved as far as it can be: who has what, what is placed where, what each keypad is known to hold. */
import type {
  AllRelayFact,
  CodeCredential,
  Comment,
  DoorDecl,
  Entry,
  FittedDecl,
  Held,
  HolderDecl,
  InstallerFact,
  KeypadDecl,
  ModelDecl,
  PolicyDecl,
  RelayDecl,
  SiteDecl,
  Span,
  SupplyDecl,
  TagCredential,
  Use,
} from "../../grammar/tree.ts";
import type { FileId, Place, Sealed, SourceFile } from "../finding.ts";
import type { FittedProblem } from "../keypad/fitted-memory.ts";
import type { Digits, Memory, TagId } from "../keypad/memory.ts";
import type { Model, RelaySet } from "../keypad/model.ts";
import type { ModelProblem } from "../keypad/problem.ts";

/** `YYYY-MM-DD`; compared as text. */
export type Day = string;

export interface Credential {
  readonly kind: "code" | "tag";
  readonly holder: Holder;
  /** Undefined: the unnamed one. */
  readonly name?: string;
  /** As written in entries: `u1`, `u1.tag`, `u3.bike`. */
  readonly path: string;
  readonly file: FileId;
  readonly node: CodeCredential | TagCredential;
  readonly digits?: Digits;
  /** Undefined for a code, and for a tag whose spelling cannot be read. */
  readonly tag?: TagId;
  readonly mark?: string;
  readonly lost: boolean;
  /** The last day; the credential's own or else its holder's. */
  readonly until?: Day;
}

export interface Holder {
  readonly id: string;
  readonly label: string;
  readonly file: FileId;
  readonly node: HolderDecl;
  readonly until?: Day;
  readonly credentials: readonly Credential[];
}

/** `u1`, `u1.tag` where it is used. */
export interface HeldUse {
  readonly file: FileId;
  readonly node: Held;
  readonly holder?: Holder;
  /** Undefined: the holder does not have what is named. */
  readonly credential?: Credential;
}

/** One entry of a relay: what goes into which slot. */
export interface Placement {
  readonly keypad: Keypad;
  readonly relay: KeypadRelay;
  readonly file: FileId;
  readonly node: Entry;
  /** Undefined: unnumbered, or half typed. */
  readonly slot?: number;
  /** One, or two of a pair, in the order written. */
  readonly held: readonly HeldUse[];
  readonly mode?: "or" | "with";
}

export interface KeypadRelay {
  readonly keypad: Keypad;
  readonly set: RelaySet;
  readonly label?: string;
  readonly spare: boolean;
  readonly noCodes: boolean;
  readonly release?: number | "toggle";
  readonly node: RelayDecl;
  readonly placements: readonly Placement[];
}

export interface AllRelayPlace {
  readonly number?: number;
  readonly node: AllRelayFact;
  readonly held?: HeldUse;
}

export interface Keypad {
  readonly id: string;
  readonly label: string;
  readonly file: FileId;
  readonly node: KeypadDecl;
  /** Undefined: the model is unknown or cannot be compiled. */
  readonly model?: Model;
  readonly relays: readonly KeypadRelay[];
  readonly placements: readonly Placement[];
  readonly installer?: { readonly node: InstallerFact; readonly held?: HeldUse; readonly digits?: Digits };
  readonly allRelay: readonly AllRelayPlace[];
  readonly codeLength?: number;
  readonly settings: readonly { readonly label: string; readonly value?: number; readonly span: Span }[];
  readonly fitted?: Fitted;
}

/** What a keypad is known to hold. */
export interface Fitted {
  readonly keypadId: string;
  readonly file: FileId;
  readonly node: FittedDecl;
  readonly date?: Day;
  readonly knows: "all" | "part" | "nothing";
  readonly modelId?: string;
  /** What is listed, by the model that the record names; undefined where that is unknown. */
  readonly memory?: Memory;
  /** What the record says that no keypad of that model can hold. */
  readonly problems: readonly FittedProblem[];
}

/** `// allow CODE: reason`. */
export interface Allowance extends Place {
  readonly code: string;
  readonly reason: string;
  /** The line it speaks of: offsets of its first and last character. */
  readonly line: Span;
  readonly comment: Comment;
}

export interface Policy {
  readonly weakCodes: "warn" | "refuse" | "allow";
  readonly nearCodes: { readonly verdict: "warn" | "refuse" | "allow"; readonly places: number };
  /** Undefined: shown, not judged. */
  readonly guessOdds?: { readonly oneIn: number };
  readonly node?: PolicyDecl;
  readonly file?: FileId;
}

export interface Site {
  /** The file that the site is named by. */
  readonly root: FileId;
  readonly label?: string;
  readonly address?: string;
  readonly contact?: string;
  readonly node?: SiteDecl;
  /** Root first, then what it uses in the order met, each once; fitted companions included. */
  readonly files: readonly SourceFile[];
  /** Sealed files that nobody opened: what is in them is known by name only. Empty for a site without any, and for one that is open. */
  readonly shut: readonly Sealed[];
  /** `instead`: what the path would have to be for a file to be there. */
  readonly uses: readonly {
    readonly file: FileId;
    readonly node: Use;
    readonly target?: FileId;
    readonly found: boolean;
    readonly instead?: string;
  }[];
  readonly holders: ReadonlyMap<string, Holder>;
  readonly models: ReadonlyMap<string, Model>;
  readonly modelNodes: readonly { readonly file: FileId; readonly node: ModelDecl }[];
  /** What is wrong with each model, as its compiler says it. */
  readonly modelProblems: readonly { readonly file: FileId; readonly node: ModelDecl; readonly problem: ModelProblem }[];
  readonly keypads: ReadonlyMap<string, Keypad>;
  readonly fitted: readonly Fitted[];
  readonly policy: Policy;
  readonly doors: readonly { readonly file: FileId; readonly node: DoorDecl }[];
  readonly supplies: readonly { readonly file: FileId; readonly node: SupplyDecl }[];
  readonly allowances: readonly Allowance[];
  /** Second declarations of one name, as met. */
  readonly doubled: readonly {
    readonly what: "holder" | "model" | "keypad" | "fitted" | "code" | "tag" | "site" | "policy" | "door" | "supply";
    readonly name: string;
    readonly first: Place;
    readonly again: Place;
  }[];
}
