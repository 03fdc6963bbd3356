/** Who and what is the same in two texts, whatever it is called now: holders, their codes and tags, keypads. */
import type { Credential, Holder, Keypad, Site } from "../site/site.ts";

/** At least one of the two is there. */
export interface Pair<T> {
  readonly was?: T;
  readonly is?: T;
}

/**
 * A holder is the same by name and label, else by a label that nobody else has, else by name. Who has neither is somebody else,
 * whoever's codes they have.
 */
export function holderPairs(before: Site, after: Site): readonly Pair<Holder>[] {
  return pairsOf(before.holders.values(), after.holders.values(), [
    ({ id, label }) => `${id} ${label}`,
    ({ label }) => label,
    ({ id }) => id,
  ]);
}

/** The codes and tags of one holder: by name, else by what they are. */
export function credentialPairs({ was, is }: Pair<Holder>): readonly Pair<Credential>[] {
  return pairsOf(was?.credentials ?? [], is?.credentials ?? [], [
    ({ kind, name }) => `${kind} ${name ?? ""}.`,
    ({ kind, digits, tag }) => (digits === undefined && tag === undefined ? "" : `${kind} ${digits ?? tag}`),
  ]);
}

/** A keypad by its name, else by a label that no other has, else by the doors that it releases. */
export function keypadPairs(before: Site, after: Site): readonly Pair<Keypad>[] {
  return pairsOf(before.keypads.values(), after.keypads.values(), [
    ({ id, label }) => `${id} ${label}`,
    ({ id }) => id,
    ({ label }) => label,
    ({ node, relays }) => {
      const doors = relays.flatMap(({ set, label }) => (label === undefined ? [] : [`${set} ${label}`]));
      return doors.length === 0 ? "" : [node.model?.text ?? "", ...doors].join("\n");
    },
  ]);
}

/**
 * Pairs in the order of the new text, then those that are gone in the order of the old one.
 *
 * @param keys one after the other; each pairs what only one on either side has. An empty key pairs nothing.
 */
function pairsOf<T>(before: Iterable<T>, after: Iterable<T>, keys: readonly ((one: T) => string)[]): readonly Pair<T>[] {
  const [old, fresh] = [[...before], [...after]];
  const partner = new Map<T, T>();
  const gone = new Set(old);
  for (const keyOf of keys) {
    const were = onlyOnes([...gone], keyOf);
    const are = onlyOnes(
      fresh.filter(one => !partner.has(one)),
      keyOf,
    );
    for (const [key, is] of are) {
      const was = were.get(key);
      if (was === undefined) continue;
      partner.set(is, was);
      gone.delete(was);
    }
  }
  return [
    ...fresh.map(is => {
      const was = partner.get(is);
      return was === undefined ? { is } : { was, is };
    }),
    ...[...gone].map(was => ({ was })),
  ];
}

function onlyOnes<T>(all: readonly T[], keyOf: (one: T) => string): ReadonlyMap<string, T> {
  const found = new Map<string, T>();
  const several = new Set<string>();
  for (const one of all) {
    const key = keyOf(one);
    if (key === "" || found.has(key)) several.add(key);
    else found.set(key, one);
  }
  for (const key of several) found.delete(key);
  return found;
}
