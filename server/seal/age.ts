/** The open age format (age-encryption.org/v1): opening, sealing, identities. The only file that knows the library, and what it is built into is loaded on demand. */
import { armor, Decrypter, Encrypter, generateX25519Identity, identityToRecipient } from "age-encryption";
import { isArmored } from "./beginnings.ts";

/** What opens a file, or does not. */
export interface Keys {
  /** `AGE-SECRET-KEY-1…` each. */
  readonly identities: readonly string[];
  readonly passphrases: readonly string[];
}

/** Kinds of failure as the format's published test vectors name them. */
export type Failure = "no match" | "header failure" | "HMAC failure" | "payload failure" | "armor failure";

export type Opened = { readonly bytes: Uint8Array } | { readonly failed: Failure };

/** Opens a file in either form. Nothing is given out of a file that is not whole. */
export async function openFile(file: Uint8Array, keys: Keys): Promise<Opened> {
  return isArmored(file) ? openArmored(file, keys) : openBinary(file, keys);
}

export async function openArmored(file: Uint8Array, keys: Keys): Promise<Opened> {
  let bytes: Uint8Array;
  try {
    bytes = armor.decode(new TextDecoder("latin1").decode(file));
  } catch {
    return { failed: "armor failure" };
  }
  return openBinary(bytes, keys);
}

export async function openBinary(file: Uint8Array, { identities, passphrases }: Keys): Promise<Opened> {
  const decrypter = new Decrypter();
  for (const identity of identities) decrypter.addIdentity(identity);
  for (const passphrase of passphrases) decrypter.addPassphrase(passphrase);
  let text: ReadableStream<Uint8Array>;
  try {
    // Of a stream the header is read, and its keys are tried, before anything of what follows.
    text = await decrypter.decrypt(new Blob([new Uint8Array(file)]).stream());
  } catch (error) {
    return { failed: failureOf(error, file) };
  }
  try {
    // All of it or nothing: the end is read before the beginning is given out.
    return { bytes: new Uint8Array(await new Response(text).arrayBuffer()) };
  } catch {
    return { failed: "payload failure" };
  }
}

/** The library tells these two apart from a header that cannot be read by their words alone; its version is fixed, and the vectors are tests. */
function failureOf(error: unknown, file: Uint8Array): Failure {
  const words = error instanceof Error ? error.message : "";
  if (words === "no identity matched any of the file's recipients") return "no match";
  return words === "invalid header HMAC" && hasWholeMac(file) ? "HMAC failure" : "header failure";
}

/** The line that ends the header has 32 bytes, 43 characters; the library compares what it finds, whatever its length. */
function hasWholeMac(file: Uint8Array): boolean {
  return /\n--- [A-Za-z0-9+/]{43}\n/.test(new TextDecoder("latin1").decode(file));
}

export type Readers = { readonly recipients: readonly string[] } | { readonly passphrase: string };

/** Seals a text. @throws Error for a recipient that `isRecipient` does not take */
export async function sealText(text: string, readers: Readers): Promise<Uint8Array> {
  const encrypter = new Encrypter();
  if ("passphrase" in readers) encrypter.setPassphrase(readers.passphrase);
  else for (const recipient of readers.recipients) encrypter.addRecipient(recipient);
  return encrypter.encrypt(text);
}

/** The text form, for files that are pasted and mailed. */
export function armored(file: Uint8Array): string {
  return armor.encode(file);
}

export async function newIdentity(): Promise<string> {
  return generateX25519Identity();
}

/** Who is meant by an identity. @returns undefined where it is none */
export async function recipientOf(identity: string): Promise<string | undefined> {
  return identityToRecipient(identity).catch(() => undefined);
}

export function isRecipient(said: string): boolean {
  try {
    new Encrypter().addRecipient(said);
    return true;
  } catch {
    return false;
  }
}
