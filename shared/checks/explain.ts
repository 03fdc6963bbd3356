/** The full explanation of a finding as Markdown, and the table of all findings: what a check says of itself. */
import type { Check } from "./check.ts";
import { checks } from "./index.ts";

/**
 * The explanation of a finding: what, why, how severe, an example that triggers it and one that does not.
 *
 * @returns empty where no finding is called so.
 */
export function explain(code: string): string {
  const check: Check | undefined = checks.find(one => one.code === code);
  if (!check) return "";
  const { what, why, triggers, quiet } = check.explain;
  const paragraphs = [
    `# ${check.code}`,
    what,
    why,
    `Severity: ${check.severity}${check.exceptions === undefined ? "" : ` (${check.exceptions})`}. ${allowanceWords(check)}`,
    "## Found here",
    fenced(triggers),
    "## Nothing to find",
    fenced(quiet),
  ];
  if (`${triggers}${quiet}`.includes(": tiny")) {
    paragraphs.push(
      "`tiny` is a keypad model with one relay, three slots (1 to 3) and codes of four digits. Carets stand under what is found.",
    );
  }
  return `${paragraphs.join("\n\n")}\n`;
}

/** The table of all findings for the README, in the order of the list. */
export function checksTable(): string {
  const rows = checks.map((check: Check) => {
    const severity = check.exceptions === undefined ? check.severity : `${check.severity}; ${check.exceptions}`;
    return `| \`${check.code}\` | ${severity} | ${check.explain.what.replaceAll("|", "\\|")} |`;
  });
  return ["| finding | severity | finds |", "| --- | --- | --- |", ...rows, ""].join("\n");
}

function allowanceWords(check: Check): string {
  const may = "It may be allowed at its line";
  const reason = `with \`// allow ${check.code}: why\``;
  if (check.last) return "It cannot be allowed.";
  if (check.code === "factory-code") return `${may} ${reason}.`;
  if (check.severity !== "error") return `${may} ${reason}${check.exceptions?.includes("error") ? ", where it is not an error" : ""}.`;
  return check.exceptions === undefined
    ? "An error cannot be allowed."
    : `An error cannot be allowed; what is less may be, at its line, ${reason}.`;
}

/** An example without the indent that its lines share. */
function fenced(example: string): string {
  const lines = example.replace(/^\n/, "").trimEnd().split("\n");
  const indents = lines.filter(line => line.trim() !== "").map(line => line.length - line.trimStart().length);
  const shared = Math.min(...indents);
  return ["```mullion", ...lines.map(line => line.slice(Math.min(shared, line.length))), "```"].join("\n");
}
