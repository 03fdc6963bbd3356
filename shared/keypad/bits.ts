/** The largest number of so many bits, as decimal text; bits beyond 53 stay exact. */
export function bitsOf(bits: number): string {
  return ((1n << BigInt(Math.max(bits, 0))) - 1n).toString();
}
