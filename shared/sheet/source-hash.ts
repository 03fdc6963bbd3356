/** The digest by which a content security policy knows an inline script or style. */
import { sha256 } from "@noble/hashes/sha2.js";
import { utf8ToBytes } from "@noble/hashes/utils.js";

/** As a content security policy names an inline script or style. */
export function sourceHash(source: string): string {
  return `sha256-${base64(sha256(utf8ToBytes(source)))}`;
}

const base64Signs = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";

/** RFC 4648, with padding. */
function base64(bytes: Uint8Array): string {
  let text = "";
  for (let index = 0; index < bytes.length; index += 3) {
    const [first = 0, second, third] = bytes.subarray(index, index + 3);
    const bits = (first << 16) | ((second ?? 0) << 8) | (third ?? 0);
    text += base64Signs[bits >> 18];
    text += base64Signs[(bits >> 12) & 63];
    text += second === undefined ? "=" : base64Signs[(bits >> 6) & 63];
    text += third === undefined ? "=" : base64Signs[bits & 63];
  }
  return text;
}
