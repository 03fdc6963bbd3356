/** Sealed files in the language server: opened with what the editor gave, which is kept in memory alone. */
import { dirname } from "node:path";
import { fileURLToPath } from "node:url";
import type { FileId } from "../../shared/finding.ts";
import type { Secret, UnlockResult } from "../../shared/requests.ts";
import { namesFile } from "../../shared/sealed/names.ts";
import { noIdentity } from "../../shared/sealed/shut.ts";
import { baseName } from "../../shared/site/paths.ts";
import { isThere, readText } from "../files.ts";
import type { Keys, Readers } from "../seal/age.ts";
import { identitiesOf } from "../seal/identities.ts";
import { openMet } from "../seal/open.ts";
import { listFor } from "../seal/recipients.ts";
import { isAsSealed, readersOf, writeSealed } from "../seal/write-sealed.ts";
import { ToolProblem } from "../tool-problem.ts";
import type { Unsealed } from "../unsealing.ts";
import { metAs, whyShut } from "../unsealing.ts";
import type { SealedHost } from "./host.ts";

export class SealedFiles implements SealedHost {
  #keys: Keys = { identities: [], passphrases: [] };

  async unlock(secrets: readonly Secret[]): Promise<UnlockResult> {
    const identities: string[] = [];
    const passphrases: string[] = [];
    let result: UnlockResult = {};
    for (const { identities: content, passphrase } of secrets) {
      if (content === undefined) {
        if (passphrase !== undefined) passphrases.push(passphrase);
        result = {};
        continue;
      }
      try {
        const asked = async () => passphrase ?? Promise.reject(new PassphraseWanted());
        identities.push(...(await identitiesOf(Buffer.from(content, "latin1"), "what was given", asked)));
        result = {};
      } catch (error) {
        if (error instanceof PassphraseWanted) result = { needsPassphrase: true };
        else if (error instanceof ToolProblem) result = { refused: error.message };
        else throw error;
      }
    }
    this.#keys = { identities, passphrases };
    return result;
  }

  async open(file: FileId): Promise<Unsealed | undefined> {
    const path = fileURLToPath(file);
    const read = readText(path);
    if ("sealed" in read) return openBytes(path, read.sealed, this.#keys);
    return "unreadable" in read ? { unreadable: read.unreadable } : undefined;
  }

  async seal(file: FileId, text: string, others: readonly FileId[]): Promise<string | undefined> {
    const path = fileURLToPath(file);
    const read = readText(path);
    if ("unreadable" in read) return `${baseName(path)} is not written over: ${read.unreadable}`;
    const before = "sealed" in read ? await openBytes(path, read.sealed, this.#keys) : undefined;
    if (before && !("text" in before)) return `${baseName(path)} is not written over: ${whyShut(before)}`;
    try {
      const readers = await this.#readers(
        path,
        before?.passphrase,
        others.map(each => fileURLToPath(each)),
      );
      const isSame = before && "sealed" in read && isAsSealed(path, { text: before.text, bytes: read.sealed.length }, text, readers);
      if (!isSame) await writeSealed(path, text, readers, dirname(path));
      return undefined;
    } catch (error) {
      if (error instanceof ToolProblem) return error.message;
      throw error;
    }
  }

  /** A file stays sealed with the passphrase that opened it; a new one is for whom the site's others are. */
  async #readers(path: string, passphrase: string | undefined, others: readonly string[]): Promise<Readers> {
    if (passphrase !== undefined) return { passphrase };
    const [first] = this.#keys.passphrases;
    if (first !== undefined && listFor(path, others, isThere) === undefined) return { passphrase: first };
    return readersOf(path, others, dirname(path));
  }
}

async function openBytes(path: string, bytes: Uint8Array, keys: Keys): Promise<Unsealed> {
  // The library need not be loaded to know that.
  if (keys.identities.length + keys.passphrases.length === 0) return { shut: noIdentity };
  const names = readText(namesFile(path));
  return openMet(metAs(path, bytes, "text" in names ? names.text : undefined), keys);
}

class PassphraseWanted extends Error {
  override readonly name = "PassphraseWanted";
}
