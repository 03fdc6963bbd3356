/** The version of what was built. */

/** Put in by the build, from package.json. */
declare const MULLION_VERSION: string;

export const version: string = MULLION_VERSION;
