/** Opens sealed files with the keys at hand, and says in words why one does not open. Never gives out part of a text. */
import { isUtf8 } from "node:buffer";
import type { Met, Unsealed } from "../unsealing.ts";
import type { Failure, Keys, Opened } from "./age.ts";
import { isArmored } from "./beginnings.ts";
import type { KeySource } from "./identities.ts";
import { keysAtHand } from "./identities.ts";
import { age } from "./load.ts";

/** What opens files in one run: the keys are fetched once, when the first sealed file is met. */
export function opener(source: KeySource): (met: Met) => Promise<Unsealed> {
  let keys: Promise<Keys> | undefined;
  return async met => {
    keys ??= keysAtHand(source);
    return openMet(met, await keys);
  };
}

export async function openMet(met: Met, keys: Keys): Promise<Unsealed> {
  const { openFile } = await age();
  // One after the other, so that it is known which one opened it: it is sealed with that one again.
  const passphrases = isUnderPassphrase(met.bytes) ? keys.passphrases : [];
  let passphrase: string | undefined;
  let opened: Opened | undefined;
  for (passphrase of passphrases) {
    opened = await openFile(met.bytes, { identities: [], passphrases: [passphrase] });
    if (!("failed" in opened && opened.failed === "no match")) break;
  }
  opened ??= await openFile(met.bytes, keys);
  if ("failed" in opened) return failure(met, keys, opened.failed);
  if (!isUtf8(opened.bytes)) return { unreadable: "what was sealed in it is not UTF-8 text" };
  // A byte order mark stays, as in any other file.
  const text = new TextDecoder("utf-8", { ignoreBOM: true }).decode(opened.bytes);
  return passphrase === undefined ? { text } : { text, passphrase };
}

/** Sealed with a passphrase rather than for recipients. The format allows one kind or the other. */
export function isUnderPassphrase(bytes: Uint8Array): boolean {
  return headerOf(bytes).includes("\n-> scrypt ");
}

function failure({ bytes, bytesSaid }: Met, { identities, passphrases }: Keys, failed: Failure): Unsealed {
  const header = headerOf(bytes);
  if (failed === "no match") {
    if (isUnderPassphrase(bytes))
      return {
        shut: passphrases.length > 0 ? "the passphrase is wrong" : "it opens with a passphrase, not with an identity (--identity -)",
      };
    return {
      shut: identities.length > 0 ? "the identity that was given does not open it" : "it opens with an identity, not with a passphrase",
    };
  }
  const ends = isArmored(bytes) ? decoded(bytes).includes("-----END AGE ENCRYPTED FILE-----") : /\n--- .*\n/.test(decoded(bytes));
  if (!ends || (bytesSaid !== undefined && bytes.length < bytesSaid)) return { unreadable: "it is cut short; what is there is not read" };
  switch (failed) {
    case "armor failure":
      return { unreadable: "it is damaged: its text form cannot be read" };
    case "header failure":
      return { unreadable: `it is damaged, or not of this format: its ${header === "" ? "text" : "beginning"} cannot be read` };
    case "HMAC failure":
      return { unreadable: "it is damaged: its beginning is not the one that it was sealed with" };
    case "payload failure":
      return bytesSaid === bytes.length
        ? { unreadable: "it is damaged: what was sealed in it is not whole" }
        : { unreadable: "it is damaged or cut short: what was sealed in it is not whole" };
  }
}

/** The header of a file in either form, as far as it can be read. */
function headerOf(bytes: Uint8Array): string {
  if (!isArmored(bytes)) return decoded(bytes).split("\n---", 1)[0] ?? "";
  const body = decoded(bytes)
    .trim()
    .split(/\r?\n/)
    .slice(1)
    .filter(line => !line.startsWith("-----"))
    .join("");
  return Buffer.from(body, "base64").toString("latin1").split("\n---", 1)[0] ?? "";
}

function decoded(bytes: Uint8Array): string {
  return Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength).toString("latin1");
}
