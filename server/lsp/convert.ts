/** The one place where offsets become protocol ranges, and findings, fixes and edits become what the protocol calls them. */
import type {
  Diagnostic,
  DiagnosticRelatedInformation,
  DiagnosticSeverity,
  DiagnosticTag,
  Location,
  Position,
  Range,
  TextDocumentEdit,
  TextEdit,
  WorkspaceEdit,
} from "vscode-languageserver";
import { TextDocument } from "vscode-languageserver-textdocument";
import type { Span } from "../../grammar/tree.ts";
import type { Edit, FileId, Finding, Place, Severity, SourceFile } from "../../shared/finding.ts";
import type { Texts } from "./texts.ts";

/** Line starts are counted once for each text. */
const documents = new WeakMap<SourceFile, TextDocument>();

export function documentOf(source: SourceFile): TextDocument {
  const known = documents.get(source);
  if (known) return known;
  const document = TextDocument.create(source.file, "mullion", 0, source.text);
  documents.set(source, document);
  return document;
}

export function rangeOf(source: SourceFile, { start, end }: Span): Range {
  const document = documentOf(source);
  return { start: document.positionAt(start), end: document.positionAt(end) };
}

export function offsetOf(source: SourceFile, position: Position): number {
  return documentOf(source).offsetAt(position);
}

export function spanOf(source: SourceFile, range: Range): Span {
  return { start: offsetOf(source, range.start), end: offsetOf(source, range.end) };
}

/** Undefined where the file is gone. */
export function locationOf(texts: Texts, place: Place): Location | undefined {
  const source = texts.now(place.file);
  return source && { uri: texts.uri(place.file), range: rangeOf(source, place) };
}

/** Each place once, in the order given; places in files that are gone are left out. */
export function locationsOf(texts: Texts, places: readonly Place[]): Location[] {
  const once = new Map(places.map(place => [`${place.file}:${place.start}:${place.end}`, place]));
  return [...once.values()].flatMap(place => locationOf(texts, place) ?? []);
}

const severities: Record<Severity, DiagnosticSeverity> = { error: 1, warning: 2, information: 3, hint: 4 };
const tags: Record<"unnecessary" | "deprecated", DiagnosticTag> = { unnecessary: 1, deprecated: 2 };

/** What the client understands of a diagnostic; a field that it does not know is left out. */
export interface DiagnosticWishes {
  readonly related: boolean;
  readonly tags: boolean;
  readonly data: boolean;
  /** Makes the address of the explanation of a finding; undefined where the client could not follow it. */
  readonly explanation?: ((code: string) => string) | undefined;
}

export function diagnosticOf(texts: Texts, source: SourceFile, finding: Finding, wishes: DiagnosticWishes): Diagnostic {
  const related = finding.related.flatMap((place): DiagnosticRelatedInformation[] => {
    const location = locationOf(texts, place);
    return location ? [{ location, message: place.message }] : [];
  });
  return {
    range: rangeOf(source, finding),
    severity: severities[finding.severity],
    code: finding.code,
    source: "mullion",
    message: finding.message,
    ...(wishes.explanation && { codeDescription: { href: wishes.explanation(finding.code) } }),
    ...(wishes.tags && finding.tags?.length && { tags: finding.tags.map(tag => tags[tag]) }),
    ...(wishes.related && related.length > 0 && { relatedInformation: related }),
    ...(wishes.data && { data: { code: finding.code, keypads: finding.keypads } }),
  };
}

export function textEditOf(source: SourceFile, edit: Edit | (Span & { readonly text: string })): TextEdit {
  return { range: rangeOf(source, edit), newText: edit.text };
}

/** Edits of several files as one change: by document and version for clients that can, by URI otherwise. */
export function workspaceEditOf(texts: Texts, edits: readonly Edit[], byDocument: boolean): WorkspaceEdit {
  const byFile = new Map<FileId, TextEdit[]>();
  for (const edit of edits) {
    const source = texts.now(edit.file);
    if (!source) continue;
    byFile.set(edit.file, [...(byFile.get(edit.file) ?? []), textEditOf(source, edit)]);
  }
  if (!byDocument) return { changes: Object.fromEntries([...byFile].map(([file, changes]) => [texts.uri(file), changes])) };
  const documentChanges = [...byFile].map(
    ([file, changes]): TextDocumentEdit => ({
      textDocument: { uri: texts.uri(file), version: texts.opened(file)?.document.version ?? null },
      edits: changes,
    }),
  );
  return { documentChanges };
}
