/** Every fix of every example: the finding is gone and no new one came. */
import { describe, expect, test } from "vitest";
import type { Check } from "../../../shared/checks/check.ts";
import { checks } from "../../../shared/checks/index.ts";
import { fixesIn, newCodes } from "../../support/fixes.ts";

/** A holder that was created has no code yet: the next finding says so, and the fix for that draws one. */
const brings: Readonly<Record<string, readonly string[]>> = { "Create holder u7": ["code-missing"] };

describe.each(checks.map((check): [string, Check] => [check.code, check]))("%s", (code, { explain }) => {
  const fixes = fixesIn(explain.triggers, code, explain.context);
  test.runIf(fixes.length > 0)("fixes of its example", () => {
    for (const one of fixes) {
      expect(one.fix.title).not.toMatch(/[0-9]{4,}/);
      // A code that is drawn has no edit before somebody has drawn it; tests/shared/codes does.
      if (one.fix.draws !== undefined) {
        expect(one.fix.edits).toEqual([]);
        continue;
      }
      expect({ title: one.fix.title, new: newCodes(one) }).toEqual({ title: one.fix.title, new: brings[one.fix.title] ?? [] });
      const left = one.after.filter(finding => finding.code === code).length;
      expect(left).toBeLessThan(one.before.filter(finding => finding.code === code).length);
      expect(one.fix.edits).not.toEqual([]);
    }
  });
});
