/** Requests of our own, by the names and shapes of `shared/requests.ts`. The user started them, so a fault is answered as one. */
import type { Connection } from "vscode-languageserver";
import { ErrorCodes, LSPErrorCodes, ResponseError } from "vscode-languageserver";
import type { Requests } from "../../shared/requests.ts";
import { guarded, misshapen } from "./guarded.ts";
import { isShaped } from "./shaped.ts";
import type { Workspace } from "./workspace.ts";

/** Those that are about a file and nothing without one. */
const ofFile: ReadonlySet<keyof Requests> = new Set([
  "mullion/sheet",
  "mullion/preview",
  "mullion/paper",
  "mullion/who",
  "mullion/record",
  "mullion/draw",
]);

/**
 * Answers one of our own requests.
 *
 * @param what names the request in the log and to the user
 * @param handle may throw what `failed` makes
 */
export function answer<M extends keyof Requests>(
  connection: Connection,
  workspace: Workspace,
  method: M,
  what: string,
  handle: (params: Requests[M]["params"]) => Requests[M]["result"] | Promise<Requests[M]["result"]>,
): void {
  const fault = new ResponseError<never>(ErrorCodes.InternalError, `Mullion met a fault of its own in ${what}; its log says where.`);
  const careful = guarded<Requests[M]["params"], unknown>(workspace, what, fault, params => {
    if (!isShaped(params, ...(ofFile.has(method) ? ["uri"] : []))) throw misshapen();
    return handle(params);
  });
  connection.onRequest<unknown, never>(method, careful);
}

/** Why something that the user asked for cannot be done. @param reason in words, without a code and without a full stop */
export function failed(reason: string): ResponseError<never> {
  return new ResponseError<never>(LSPErrorCodes.RequestFailed, `${reason.charAt(0).toUpperCase()}${reason.slice(1)}.`);
}
