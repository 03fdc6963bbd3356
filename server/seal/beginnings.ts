/** How files of the open age format begin (age-encryption.org/v1), in its binary form and in its armour; known without the library. */
const binary = "age-encryption.org/v1";
const armor = "-----BEGIN AGE ENCRYPTED FILE-----";

/** In text form, as the tools of the format write it when asked to. Blanks before it are passed over. */
export function isArmored(file: Uint8Array): boolean {
  return beginning(file, 256).trimStart().startsWith(armor);
}

export function isBinary(file: Uint8Array): boolean {
  return beginning(file, binary.length) === binary;
}

/** Sealed, or the first few bytes of what was: a file that was cut short is a damaged sealed one and no plain text. */
export function mayBeSealed(file: Uint8Array): boolean {
  const begins = beginning(file, 64).trimStart();
  return begins !== "" && [`${binary}\n`, armor].some(each => begins.startsWith(each.slice(0, begins.length)));
}

function beginning(file: Uint8Array, bytes: number): string {
  return new TextDecoder("latin1").decode(file.subarray(0, bytes));
}
