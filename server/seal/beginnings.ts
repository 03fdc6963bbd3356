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

/**
 * Why this is no sealed file, in words; undefined where it is one, or the first few bytes of one: what was cut short is damaged, and no
 * plain text.
 */
export function whyNotSealed(file: Uint8Array): string | undefined {
  if (file.length === 0) return "it is empty, and no sealed file is";
  const begins = beginning(file, 64).trimStart();
  const isBegun = begins !== "" && [`${binary}\n`, armor].some(each => begins.startsWith(each.slice(0, begins.length)));
  return isBegun ? undefined : "it is no sealed file: it does not begin like one";
}

function beginning(file: Uint8Array, bytes: number): string {
  return new TextDecoder("latin1").decode(file.subarray(0, bytes));
}
