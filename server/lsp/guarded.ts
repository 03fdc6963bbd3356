/** Every request goes through here: a cancelled one ends early, an overtaken one says so, a fault answers empty. */
import type { CancellationToken } from "vscode-languageserver";
import { ErrorCodes, LSPErrorCodes, ResponseError } from "vscode-languageserver";
import { isAboutNothing, isShaped } from "./shaped.ts";
import type { Workspace } from "./workspace.ts";

/** The text changed while the answer was being worked out. */
export function overtaken(): ResponseError<never> {
  return new ResponseError<never>(LSPErrorCodes.ContentModified, "the text has changed meanwhile");
}

function cancelled(): ResponseError<never> {
  return new ResponseError<never>(LSPErrorCodes.RequestCancelled, "cancelled");
}

export function misshapen(): ResponseError<never> {
  return new ResponseError<never>(ErrorCodes.InvalidParams, "the request is not of the shape that the protocol gives it");
}

/**
 * Wraps the handler of a request.
 *
 * @param what names the request in the log
 * @param empty the answer when Mullion is at fault
 * @param handle may throw a `ResponseError` to answer with it
 */
export function guarded<P, R>(
  workspace: Workspace,
  what: string,
  empty: R,
  handle: (params: P, token: CancellationToken) => R | Promise<R>,
): (params: P, token: CancellationToken) => Promise<R | ResponseError<never>> {
  const careful = unversioned(workspace, what, empty, handle);
  return async (params, token) => {
    const uri = uriIn(params);
    const version = () => (uri === undefined ? undefined : workspace.file(uri)?.document.version);
    const asked = version();
    const answer = await careful(params, token);
    return version() === asked ? answer : overtaken();
  };
}

/** The same for answers that are about whatever the text is by then, and not about a place in it. */
export function unversioned<P, R>(
  workspace: Workspace,
  what: string,
  empty: R,
  handle: (params: P, token: CancellationToken) => R | Promise<R>,
): (params: P, token: CancellationToken) => Promise<R | ResponseError<never>> {
  return async (params, token) => {
    // A turn of the loop first, so that a cancellation that has already arrived is seen.
    await new Promise(resolve => setTimeout(resolve, 0));
    if (token.isCancellationRequested) return cancelled();
    if (params !== undefined && !isShaped(params)) return misshapen();
    try {
      const answer = await handle(params, token);
      return token.isCancellationRequested ? cancelled() : answer;
    } catch (fault) {
      if (fault instanceof ResponseError) return fault as ResponseError<never>;
      // Nothing was named that it could have been about: no fault of ours.
      if (params !== undefined && isAboutNothing(params)) return misshapen();
      workspace.faults.report(what, fault);
      return empty;
    }
  };
}

function uriIn(params: unknown): string | undefined {
  const { textDocument } = (params ?? {}) as { textDocument?: { uri?: string } };
  return textDocument?.uri;
}

/** A request to the client whose answer nobody needs, nor whether there is one. */
export function quietly(asked: Promise<unknown>): void {
  asked.catch(() => undefined);
}
