/** The two examples of every check: the one that triggers it, with its marks, and the quiet one. */
import { describe, expect, test } from "vitest";
import type { Check } from "../../../shared/checks/check.ts";
import { checks } from "../../../shared/checks/index.ts";
import { checkFindings } from "../../support/fixture.ts";

describe.each(checks.map((check): [string, Check] => [check.code, check]))("%s", (code, { explain }) => {
  test("is found in its example", () => {
    const findings = checkFindings(explain.triggers, explain.context);
    expect(findings.map(finding => finding.code)).toContain(code);
  });

  test("is quiet where nothing is wrong", () => {
    expect(checkFindings(explain.quiet, { ...explain.context, mostFindings: 10 })).toEqual([]);
  });
});
