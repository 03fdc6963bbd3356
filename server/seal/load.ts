/** The age library, loaded when a sealed file is met and not before: a plain site never pays for it. */
export type Age = typeof import("./age.ts");

export async function age(): Promise<Age> {
  return import("./age.ts");
}
