/** The whole check, from text to findings. */
import { parse } from "../../grammar/parse.ts";
import { findingsOf } from "../../shared/checks/run.ts";
import { loadSite } from "../../shared/site/load.ts";
import { siteText } from "./generate.ts";
import { today } from "./today.ts";

const file = "memory:/site.mullion";

export function prepare(lines: number): () => Record<string, number> {
  const text = siteText(lines, "inside");
  return () => {
    const source = { file, text, ...parse(text) };
    const site = loadSite(file, asked => (asked === file ? source : undefined));
    const findings = findingsOf(site, { today });
    const count = (code: string) => findings.filter(finding => finding.code === code).length;
    return {
      declarations: source.tree.declarations.length,
      findings: findings.length,
      slotClash: count("slot-clash"),
      codeLength: count("code-length"),
    };
  };
}
