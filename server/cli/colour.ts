/** Whether standard output takes colour: only a terminal does, unless the environment says otherwise. */

/** `FORCE_COLOR` wins over `NO_COLOR`, as in Node itself; an empty variable says nothing. */
export function takesColour(env: Readonly<Record<string, string | undefined>>, terminal: boolean): boolean {
  const forced = env.FORCE_COLOR;
  if (forced !== undefined && forced !== "") return forced !== "0" && forced !== "false";
  if (env.NO_COLOR) return false;
  return terminal && env.TERM !== "dumb";
}
