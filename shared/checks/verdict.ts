/** What a policy's word means for a finding. */
import type { Severity } from "../finding.ts";

/** `warn` is a warning, `refuse` an error, `allow` nothing. */
export function verdictSeverity(verdict: "warn" | "refuse" | "allow"): Severity | undefined {
  return verdict === "allow" ? undefined : verdict === "refuse" ? "error" : "warning";
}
