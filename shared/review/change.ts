/** One thing that a change of the text means, in a sentence. No codes. */
export interface Change {
  readonly kind:
    | "site"
    | "holder-new"
    | "holder-gone"
    | "holder-renamed"
    | "code-new"
    | "code-changed"
    | "code-gone"
    | "tag-new"
    | "tag-changed"
    | "tag-gone"
    | "tag-lost"
    | "until"
    | "opens"
    | "opens-no-longer"
    | "opens-otherwise"
    | "door-renamed"
    | "keypad-new"
    | "keypad-gone"
    | "keypad-renamed"
    | "keypad"
    | "moved"
    | "record";
  readonly text: string;
  /** Ids, as the new text has them; as the old one had them of what is gone. */
  readonly holder?: string;
  readonly keypad?: string;
  /** Labels. */
  readonly doors?: readonly string[];
}

/** Beyond so many of one kind at one keypad they are counted and not listed. Our own choice. */
export const mostListed = 12;
