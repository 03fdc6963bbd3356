/** File ids of the server: the client's URIs in one spelling, the one that `use` paths resolve to, so that equal files have equal ids. */
import type { FileId } from "../../shared/finding.ts";

/** `scheme:` and, where there is one, `//authority`; then the path. */
const parts = /^([A-Za-z][A-Za-z0-9+.-]*:(?:\/\/[^/?#]*)?)([^?#]*)(.*)$/s;

/** The scheme under which an editor of ours shows the text in a sealed file. Its path is that of the file. */
export const sealedScheme = "mullion-sealed";

/** The address at which the text in a sealed file can be opened. */
export function sealedView(file: FileId): string {
  return file.replace(/^file:(?=\/\/)/, `${sealedScheme}:`);
}

export function fileIdOf(uri: string): FileId {
  const [, head, path, rest] = parts.exec(uri.replace(/^mullion-sealed:(?:\/\/)?(?=\/)/, "file://")) ?? [];
  // With a query or a fragment it is no file but something made of one.
  if (head === undefined || path === undefined || rest) return uri;
  const steps = path.split("/").map(step => encoded(decoded(step)));
  // A drive letter is one letter whichever way it is written.
  if (/^[A-Za-z]%3A$/.test(steps[1] ?? "")) steps[1] = (steps[1] ?? "").replace(/^./, letter => letter.toLowerCase());
  return head + steps.join("/");
}

export function schemeOf(uri: string): string {
  return /^[A-Za-z][A-Za-z0-9+.-]*(?=:)/.exec(uri)?.[0] ?? "";
}

function encoded(step: string): string {
  return encodeURIComponent(step).replace(/[!'()*]/g, sign => `%${sign.charCodeAt(0).toString(16).toUpperCase()}`);
}

function decoded(step: string): string {
  try {
    return decodeURIComponent(step);
  } catch {
    // A stray percent sign stands for itself.
    return step;
  }
}
