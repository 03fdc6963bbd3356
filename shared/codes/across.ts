/** What can only be seen over several sites: one installer code on two of them, one tag number with two holders. */
import { at } from "../checks/check.ts";
import type { Finding, Place } from "../finding.ts";
import type { Credential, Keypad, Site } from "../site/site.ts";

export const acrossCodes = ["installer-reused", "tag-twice"] as const;

/**
 * Findings over all sites of a workspace or folder, in the order of the paths. One site gives none: what it doubles inside is its own checks'.
 */
export function findingsAcross(sites: readonly Site[]): readonly Finding[] {
  const ordered = [...sites].sort((one, other) => (one.root < other.root ? -1 : one.root > other.root ? 1 : 0));
  return [...reusedInstallers(ordered), ...sharedTags(ordered)];
}

/** One hint for each installer code, at the first path's installer line. Many firms do this knowingly: a hint, never more. */
function* reusedInstallers(sites: readonly Site[]): Iterable<Finding> {
  const uses = new Map<string, { site: Site; keypad: Keypad; place: Place }[]>();
  for (const site of sites) {
    for (const keypad of site.keypads.values()) {
      const { installer } = keypad;
      if (installer?.digits === undefined) continue;
      const list = uses.get(installer.digits) ?? [];
      uses.set(installer.digits, list);
      list.push({ site, keypad, place: at(keypad.file, installer.node) });
    }
  }
  for (const [first, ...others] of uses.values()) {
    const elsewhere = others.filter(other => other.site !== first?.site && other.place.file !== first?.place.file);
    if (!first || elsewhere.length === 0) continue;
    const labels = [...new Set(elsewhere.map(other => other.site.label ?? "a site without a name"))];
    yield {
      ...first.place,
      code: "installer-reused",
      severity: "hint",
      message: `the installer code of ${first.keypad.label} is used at ${labels.join(", ")} too: whoever learns one has all of them`,
      related: elsewhere.map(other => ({ ...other.place, message: `${other.keypad.label} has the same installer code` })),
      keypads: [first.keypad.id],
      found: undefined,
    };
  }
}

/** One tag number that holders of different sites carry: either a slip of the pen, or one tag that opens both. */
function* sharedTags(sites: readonly Site[]): Iterable<Finding> {
  const carriers = new Map<string, { site: Site; credential: Credential }[]>();
  for (const site of sites) {
    for (const holder of site.holders.values()) {
      for (const credential of holder.credentials) {
        // A tag that is known by its mark alone is told apart by nothing across sites.
        if (credential.kind !== "tag" || credential.tag === undefined || credential.tag.startsWith('"')) continue;
        const list = carriers.get(credential.tag) ?? [];
        carriers.set(credential.tag, list);
        if (!list.some(other => other.credential.file === credential.file && other.credential.node.start === credential.node.start))
          list.push({ site, credential });
      }
    }
  }
  for (const [first, ...others] of carriers.values()) {
    const elsewhere = others.filter(
      other => other.site !== first?.site && other.credential.holder.label !== first?.credential.holder.label,
    );
    if (!first || elsewhere.length === 0) continue;
    const { credential } = first;
    yield {
      ...at(credential.file, credential.node),
      code: "tag-twice",
      severity: "warning",
      message: `${credential.holder.label} carries a tag that holders of other sites carry too: ${elsewhere.map(other => `${other.credential.holder.label} (${other.site.label ?? "a site without a name"})`).join(", ")}`,
      related: elsewhere.map(other => ({
        ...at(other.credential.file, other.credential.node),
        message: `${other.credential.holder.label} carries it`,
      })),
      keypads: [],
      found: undefined,
    };
  }
}
