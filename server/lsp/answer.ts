/** Requests of our own, by the names and shapes of `shared/requests.ts`. The user started them, so a fault is answered as one. */
import type { Connection } from "vscode-languageserver";
import { ErrorCodes, LSPErrorCodes, ResponseError } from "vscode-languageserver";
import { capital } from "../../shared/capital.ts";
import type { Requests } from "../../shared/requests.ts";
import { guarded, misshapen } from "./guarded.ts";
import { isShaped } from "./shaped.ts";
import type { Workspace } from "./workspace.ts";

/** What a request is nothing without: the file that it is about, what is to be put into it, what opens it. */
const needed: ReadonlyMap<keyof Requests, readonly string[]> = new Map([
  ["mullion/sheet", ["uri"]],
  ["mullion/preview", ["uri"]],
  ["mullion/paper", ["uri"]],
  ["mullion/who", ["uri"]],
  ["mullion/record", ["uri"]],
  ["mullion/draw", ["uri"]],
  ["mullion/unlock", ["secrets"]],
  ["mullion/unseal", ["uri"]],
  ["mullion/reseal", ["uri", "text"]],
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
    if (!isShaped(params, ...(needed.get(method) ?? []))) throw misshapen();
    return handle(params);
  });
  connection.onRequest<unknown, never>(method, careful);
}

/** Why something that the user asked for cannot be done. @param reason in words, without a code and without a full stop */
export function failed(reason: string): ResponseError<never> {
  return new ResponseError<never>(LSPErrorCodes.RequestFailed, `${capital(reason)}.`);
}
