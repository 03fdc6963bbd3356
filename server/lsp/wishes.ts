/** What the client understands of a diagnostic. */
import type { DiagnosticWishes } from "./convert.ts";
import type { Workspace } from "./workspace.ts";

export function wishesOf({ client, explanation }: Workspace): DiagnosticWishes {
  // What a client that pulls understands stands under `diagnostic` since 3.18, under `publishDiagnostics` before.
  const { diagnostic, publishDiagnostics } = client.textDocument ?? {};
  const either = { ...publishDiagnostics, ...diagnostic };
  return {
    related: either.relatedInformation === true,
    tags: either.tagSupport !== undefined,
    data: either.dataSupport === true,
    explanation: either.codeDescriptionSupport === true ? explanation : undefined,
  };
}
