/** The names file beside a sealed one: who and what is in it, by name only, so that the rest of a site can be checked without opening it. */
import type { Declaration, HolderDecl, SourceTree } from "../../grammar/tree.ts";
import type { FileId } from "../finding.ts";
import { quoted } from "../quoted.ts";
import { baseName } from "../site/paths.ts";

/** Whether a path is that of a sealed file, by its ending. */
export function isSealed(file: FileId): boolean {
  return file.endsWith(".age");
}

/** `people.names` for `people.mullion.age`. */
export function namesFile(sealed: FileId): FileId {
  return `${stem(sealed)}.names`;
}

/** `people.recipients` for `people.mullion.age`. */
export function recipientsFile(sealed: FileId): FileId {
  return `${stem(sealed)}.recipients`;
}

/** The last part of the path without what says that it is a sealed Mullion file. */
function stem(sealed: FileId): FileId {
  return sealed.replace(/(\.mullion)?\.age$/, "");
}

/** A word with its place in the names file. */
export interface Named {
  readonly text: string;
  readonly start: number;
  readonly end: number;
}

export interface NamedHolder {
  readonly name: Named;
  readonly start: number;
  readonly end: number;
  readonly credentials: readonly {
    readonly kind: "code" | "tag";
    readonly keyword: Named;
    /** Undefined: the unnamed one. */
    readonly name?: Named;
  }[];
}

/** For whom a file was sealed, as its names file says; what tells that nothing changed, and that a file was cut short. */
export interface SealedFor {
  /** Of the sealed file. */
  readonly bytes: number;
  /** A digest of the recipients, or `passphrase`. */
  readonly readers: string;
}

export interface Names {
  readonly holders: readonly NamedHolder[];
  readonly uses: readonly Named[];
  /** Other declarations; a door's label is not said. */
  readonly others: readonly { readonly kind: "keypad" | "model" | "door" | "supply"; readonly name?: string }[];
  readonly sealedFor?: SealedFor;
}

/** What a sealed record's names are: it declares nothing that another file could name. */
export const noNames: Names = { holders: [], uses: [], others: [] };

const line = /^[ \t]*(holder|use|keypad|model|door|supply|sealed)\b(.*)$/;
const name = "[A-Za-z][A-Za-z0-9_-]*";
const holderLine = new RegExp(`^(${name})[ \\t]*(?::(.*))?$`);
const credential = new RegExp(`^([ \\t]*)(code|tag)(?:([ \\t]+)(${name}))?[ \\t]*$`);

/** Reads a names file. What it does not understand is passed over: it is a help, and nobody's only source. */
export function readNames(text: string): Names {
  const holders: NamedHolder[] = [];
  const uses: Named[] = [];
  const others: Names["others"][number][] = [];
  let sealedFor: SealedFor | undefined;
  let at = 0;
  for (const whole of text.split("\n")) {
    const start = at;
    at += whole.length + 1;
    const said = whole.replace(/^\ufeff/, "").replace(/\r$/, "");
    const found = line.exec(said);
    if (!found) continue;
    const kind = found[1] ?? "";
    const rest = (found[2] ?? "").trim();
    const restStart = start + whole.indexOf(rest, whole.indexOf(kind) + kind.length);
    switch (kind) {
      case "holder": {
        const holder = holderIn(rest, restStart, start + whole.indexOf(kind));
        if (holder) holders.push(holder);
        break;
      }
      case "use": {
        const path = stringIn(rest);
        if (path !== undefined) uses.push({ text: path, start: restStart, end: restStart + rest.length });
        break;
      }
      case "sealed": {
        const [, bytes, readers] = /^(\d{1,9}) bytes for ([0-9a-f]{16}|passphrase)$/.exec(rest) ?? [];
        if (bytes !== undefined && readers !== undefined) sealedFor = { bytes: Number(bytes), readers };
        break;
      }
      case "door":
        others.push({ kind });
        break;
      default:
        if (new RegExp(`^${name}$`).test(rest)) others.push({ kind: kind as "keypad" | "model" | "supply", name: rest });
    }
  }
  return { holders, uses, others, ...(sealedFor ? { sealedFor } : {}) };
}

function holderIn(rest: string, restStart: number, start: number): NamedHolder | undefined {
  const [, id, list = ""] = holderLine.exec(rest) ?? [];
  if (id === undefined) return undefined;
  const credentials: NamedHolder["credentials"][number][] = [];
  let at = restStart + rest.length - list.length;
  for (const part of list.split(",")) {
    const [, before = "", kind, between = "", own] = credential.exec(part) ?? [];
    if (kind === "code" || kind === "tag") {
      const from = at + before.length;
      const ownStart = from + kind.length + between.length;
      credentials.push({
        kind,
        keyword: { text: kind, start: from, end: from + kind.length },
        ...(own === undefined ? {} : { name: { text: own, start: ownStart, end: ownStart + own.length } }),
      });
    }
    at += part.length + 1;
  }
  return { name: { text: id, start: restStart, end: restStart + id.length }, start, end: restStart + rest.length, credentials };
}

function stringIn(written: string): string | undefined {
  const [, inside] = /^"((?:[^"\\]|\\["\\])*)"$/.exec(written) ?? [];
  return inside?.replace(/\\(["\\])/g, "$1");
}

/**
 * The text of the names file for what is in a sealed one. No label, date, mark or digit goes into it.
 *
 * @param sealed the sealed file, which the first line names
 */
export function printNames(sealed: FileId, tree: SourceTree, sealedFor: SealedFor | undefined): string {
  const lines = [`# What ${baseName(sealed)} holds, by name only. Written when it was sealed; it holds no code.`];
  if (sealedFor) lines.push(`sealed ${sealedFor.bytes} bytes for ${sealedFor.readers}`);
  for (const declaration of tree.declarations) {
    const said = lineOf(declaration);
    if (said !== undefined) lines.push(said);
  }
  return `${lines.join("\n")}\n`;
}

function lineOf(declaration: Declaration): string | undefined {
  switch (declaration.kind) {
    case "use":
      return declaration.path ? `use ${quoted(declaration.path.text)}` : undefined;
    case "holder":
      return holderWords(declaration);
    case "keypad":
    case "model":
    case "supply":
      return declaration.name ? `${declaration.kind} ${declaration.name.text}` : undefined;
    case "door":
      return "door";
    default:
      return undefined;
  }
}

function holderWords({ name: id, facts }: HolderDecl): string | undefined {
  if (!id) return undefined;
  const credentials = facts.flatMap(fact => {
    // Half typed, without digits, number and mark, is nothing that could be placed.
    const isThere = fact.kind === "code" ? fact.digits : fact.kind === "tag" ? (fact.number ?? fact.mark) : undefined;
    if ((fact.kind !== "code" && fact.kind !== "tag") || !isThere) return [];
    return [fact.name ? `${fact.kind} ${fact.name.text}` : fact.kind];
  });
  return credentials.length === 0 ? `holder ${id.text}` : `holder ${id.text}: ${credentials.join(", ")}`;
}
