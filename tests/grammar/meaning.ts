/** What a tree says, without where it says it. */
export function meaningOf(node: unknown): string {
  return JSON.stringify(node, (key, value: unknown) => (key === "start" || key === "end" ? undefined : value));
}
