/** What changes for holders, whatever they open: who is new, gone or called otherwise, whose code, tag or last day is another. */
import { tagWords } from "../sheet/names.ts";
import { labelled } from "../sheet/visible.ts";
import type { Credential, Holder } from "../site/site.ts";
import type { Change } from "./change.ts";
import type { Pair } from "./match.ts";
import { credentialPairs } from "./match.ts";

export function peopleChanges(pairs: readonly Pair<Holder>[]): readonly Change[] {
  return pairs.flatMap(pair => {
    const { was, is } = pair;
    if (!was && is) return [{ kind: "holder-new", holder: is.id, text: `${labelled(is.label)} (${is.id}) is new.` }];
    if (was && !is) return [{ kind: "holder-gone", holder: was.id, text: `${labelled(was.label)} (${was.id}) is taken out of the text.` }];
    return was && is ? [...renamed(was, is), ...credentialChanges(pair, is), ...lastDays(pair, is)] : [];
  });
}

function renamed(was: Holder, is: Holder): readonly Change[] {
  const about = { kind: "holder-renamed", holder: is.id } as const;
  if (was.label !== is.label)
    return [
      {
        ...about,
        text: `${labelled(was.label)} is now called ${labelled(is.label)}${was.id === is.id ? "" : `, and ${was.id} ${is.id}`}.`,
      },
    ];
  return was.id === is.id ? [] : [{ ...about, text: `${labelled(is.label)} is ${is.id} in the text now, before: ${was.id}.` }];
}

function credentialChanges(pair: Pair<Holder>, holder: Holder): readonly Change[] {
  const who = labelled(holder.label);
  const said = (kind: Change["kind"], text: string): Change => ({ kind, holder: holder.id, text: `${who} ${text}.` });
  return credentialPairs(pair).flatMap(({ was, is }): readonly Change[] => {
    if (!was) return is ? [said(`${is.kind}-new`, `is given a ${thing(is)}`)] : [];
    if (!is) return [said(`${was.kind}-gone`, `no longer has a ${thing(was)}`)];
    const changes: Change[] = [];
    if (was.name !== is.name) changes.push(said("holder-renamed", `has the ${thing(was)} as ${thing(is)} now`));
    if (is.kind === "code" && was.digits !== is.digits) changes.push(said("code-changed", `has a new ${thing(is)}`));
    if (is.kind === "tag" && was.tag !== is.tag) changes.push(said("tag-changed", `has another ${thing(is)}`));
    if (was.lost !== is.lost) changes.push(said("tag-lost", is.lost ? `has lost the ${thing(is)}` : `has the ${thing(is)} again`));
    return changes;
  });
}

/** One sentence for the holder where all that was there before changes alike. */
function lastDays(pair: Pair<Holder>, holder: Holder): readonly Change[] {
  const changed = credentialPairs(pair).flatMap(({ was, is }) => (was && is && was.until !== is.until ? [{ was, is }] : []));
  const ways = new Map(changed.map(({ was, is }) => [`${was.until} ${is.until}`, { was, is }]));
  const about = { kind: "until", holder: holder.id } as const;
  if (ways.size === 1)
    return [...ways.values()].map(({ was, is }) => ({ ...about, text: `${labelled(holder.label)} ${untilWords(was.until, is.until)}.` }));
  return changed.map(({ was, is }) => ({
    ...about,
    text: `${labelled(holder.label)} ${untilWords(was.until, is.until)} with the ${thing(is)}.`,
  }));
}

function untilWords(was: string | undefined, is: string | undefined): string {
  if (is === undefined) return "has no last day any more";
  return `is meant to open until ${is}${was === undefined ? "" : `, before: ${was}`}`;
}

/** `code`, `code "yard"`, `tag 8061261 (blue fob)`. */
function thing({ kind, name, tag, mark }: Credential): string {
  const own = name === undefined ? kind : `${kind} "${name}"`;
  if (kind === "code") return own;
  const number = tag !== undefined && /^[0-9]+$/.test(tag) ? ` ${tagWords(tag).replace(/^tag /, "")}` : "";
  return `${own}${number}${mark === undefined ? "" : ` (${labelled(mark)})`}`;
}
