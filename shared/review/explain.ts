/** The full explanation of a warning about a change, as Markdown. */
import { warnings } from "./warnings/index.ts";

/** @returns empty where no warning is called so. */
export function explainWarning(code: string): string {
  const warning = warnings.find(one => one.code === code);
  if (!warning) return "";
  const { what, why, before, triggers, quiet } = warning.explain;
  const fenced = (text: string) => ["```mullion", text, "```"].join("\n");
  return `${[
    `# ${code}`,
    what,
    why,
    "It is given by `mullion review`, which sees two texts; no single text shows it.",
    "## Before",
    fenced(before),
    "## Found here",
    fenced(triggers),
    "## Nothing to find",
    fenced(quiet),
  ].join("\n\n")}\n`;
}
