/** Whether a finding holds back the run sheet of a keypad: an error does, of that keypad or of the site as a whole. */
import type { Finding } from "../finding.ts";
import type { Keypad } from "../site/site.ts";

export function holdsBack(finding: Finding, keypad: Keypad): boolean {
  return finding.severity === "error" && (finding.keypads.length === 0 || finding.keypads.includes(keypad.id));
}
