/** Holders and what they were given, and which of it `u1`, `u1.tag` or `u3.yard` means. */
import type { CodeCredential, Held, HolderDecl, TagCredential } from "../../grammar/tree.ts";
import type { FileId, Place } from "../finding.ts";
import { labelIn } from "../label.ts";
import { markedTag, readTag } from "../tags/spelling.ts";
import type { Credential, HeldUse, Holder, Site } from "./site.ts";

type Doubled = Site["doubled"][number];

/** A holder from its declaration; a second credential of one name goes to `doubled` and is not read. */
export function holderOf(file: FileId, node: HolderDecl, doubled: Doubled[]): Holder {
  const credentials: Credential[] = [];
  const own = node.facts.find(fact => fact.kind === "until");
  const until = own?.kind === "until" ? own.date?.text : undefined;
  const holder: Holder = {
    id: node.name?.text ?? "",
    label: labelIn(node.label) ?? node.name?.text ?? "",
    file,
    node,
    until,
    credentials,
  };
  // Most have one code or tag and nothing else: nothing can be doubled.
  const only = node.facts.length === 1 ? node.facts[0] : undefined;
  if (only?.kind === "code" || only?.kind === "tag") {
    credentials.push(credentialOf(holder, only));
    return holder;
  }
  const first = new Map<string, Place>();
  for (const fact of node.facts) {
    if (fact.kind !== "code" && fact.kind !== "tag") continue;
    // A code and a tag that both have no name are two things; one name is for one of either kind.
    const name = fact.name?.text ?? `.${fact.kind}`;
    const place = { file, start: (fact.name ?? fact.keyword).start, end: (fact.name ?? fact.keyword).end };
    const before = first.get(name);
    if (before && isWritten(fact)) doubled.push({ what: fact.kind, name: fact.name?.text ?? "", first: before, again: place });
    else if (!before) {
      first.set(name, place);
      credentials.push(credentialOf(holder, fact));
    }
  }
  return holder;
}

/** Until it is, the word that is still to be typed may be its name. */
function isWritten(node: CodeCredential | TagCredential): boolean {
  return node.kind === "code" ? node.digits !== undefined : node.number !== undefined || node.mark !== undefined;
}

/** What `held` means: the unnamed code, else the unnamed tag, where no credential is named. */
export function heldUseOf(file: FileId, node: Held, holders: ReadonlyMap<string, Holder>): HeldUse {
  const holder = holders.get(node.holder.text);
  if (!holder) return { file, node, holder, credential: undefined };
  const credential = node.dot ? named(holder, node.credential?.text) : (unnamed(holder, "code") ?? unnamed(holder, "tag"));
  return { file, node, holder, credential };
}

function credentialOf(holder: Holder, node: CodeCredential | TagCredential): Credential {
  const name = node.name?.text;
  const until = node.until?.date?.text ?? holder.until;
  const path = name !== undefined ? `${holder.id}.${name}` : node.kind === "tag" ? `${holder.id}.tag` : holder.id;
  const { file } = holder;
  if (node.kind === "code") return { holder, name, path, file, until, kind: "code", node, lost: false, digits: node.digits?.text };
  const mark = node.mark?.text;
  const read = node.number ? readTag(node.number.text) : undefined;
  const tag = read ? ("tag" in read ? read.tag : undefined) : mark === undefined ? undefined : markedTag(mark);
  return { holder, name, path, file, until, kind: "tag", node, lost: node.lost !== undefined, tag, mark };
}

function unnamed(holder: Holder, kind: "code" | "tag"): Credential | undefined {
  return holder.credentials.find(credential => credential.kind === kind && credential.name === undefined);
}

function named(holder: Holder, name: string | undefined): Credential | undefined {
  if (name === "code" || name === "tag") return unnamed(holder, name);
  return name === undefined ? undefined : holder.credentials.find(credential => credential.name === name);
}
