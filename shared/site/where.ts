/** Where everything that a holder was given is used: slots, installer codes, all-relay codes. */
import type { AllRelayPlace, Credential, HeldUse, Holder, Keypad, Placement, Site } from "./site.ts";

/** One use of a code or a tag. */
export type HeldAt = { readonly keypad: Keypad; readonly use: HeldUse } & (
  | { readonly as: "slot"; readonly placement: Placement }
  | { readonly as: "installer" }
  | { readonly as: "all-relay"; readonly allRelay: AllRelayPlace }
);

interface Where {
  readonly all: readonly HeldAt[];
  readonly ofCredential: ReadonlyMap<Credential, readonly HeldAt[]>;
  /** Made when it is first asked for, which mostly nobody does. */
  ofHolder?: ReadonlyMap<Holder, readonly HeldAt[]>;
}

/** Every use in the site, resolved or not, in the order of the text: keypad by keypad, its own facts first. */
export function heldEverywhere(site: Site): readonly HeldAt[] {
  return whereOf(site).all;
}

/** The uses of one code or tag. */
export function usesOf(site: Site, credential: Credential): readonly HeldAt[] {
  return whereOf(site).ofCredential.get(credential) ?? [];
}

/** Ids of the keypads where anything of a holder is used. */
export function keypadsOf(site: Site, holder: Holder): readonly string[] {
  const where = whereOf(site);
  where.ofHolder ??= listedBy(where.all, ({ use }) => use.holder);
  return keypadIds(where.ofHolder.get(holder) ?? []);
}

export function keypadIds(uses: readonly HeldAt[]): readonly string[] {
  return [...new Set(uses.map(use => use.keypad.id))];
}

const known = new WeakMap<Site, Where>();

function whereOf(site: Site): Where {
  const before = known.get(site);
  if (before) return before;
  const all: HeldAt[] = [];
  for (const keypad of site.keypads.values()) {
    if (keypad.installer?.held) all.push({ keypad, use: keypad.installer.held, as: "installer" });
    for (const allRelay of keypad.allRelay) if (allRelay.held) all.push({ keypad, use: allRelay.held, as: "all-relay", allRelay });
    for (const placement of keypad.placements) {
      for (const use of placement.held) all.push({ keypad, use, as: "slot", placement });
    }
  }
  const where = { all, ofCredential: listedBy(all, ({ use }) => use.credential) };
  known.set(site, where);
  return where;
}

function listedBy<K>(all: readonly HeldAt[], keyOf: (at: HeldAt) => K | undefined): ReadonlyMap<K, readonly HeldAt[]> {
  const lists = new Map<K, HeldAt[]>();
  for (const at of all) {
    const key = keyOf(at);
    if (key === undefined) continue;
    const list = lists.get(key);
    if (list) list.push(at);
    else lists.set(key, [at]);
  }
  return lists;
}
