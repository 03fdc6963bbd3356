/** The words that stand beside an entry. */
import { expect, test } from "vitest";
import { entriesWords, remarks } from "../../../shared/sheet/remarks.ts";
import { entry } from "./made-sheet.ts";

test("numbers of entries are drawn together", () => {
  expect(entriesWords([3])).toBe("entry 3");
  expect(entriesWords([4, 3])).toBe("entries 3, 4");
  expect(entriesWords([2, 3, 4, 9])).toBe("entries 2 to 4, 9");
});

test("an entry says whether it may be skipped and repeated, and what it hangs on", () => {
  expect(remarks(entry)).toEqual(["May be skipped.", "Typing it again is harmless."]);
  expect(remarks({ ...entry, repeatable: false, skippable: false, needs: [1], neededBy: [3, 4], because: "Here first." })).toEqual([
    "Here first.",
    "Only after entry 1.",
    "May not be skipped: entries 3, 4 need it.",
    "Do not type it again once it was taken.",
  ]);
});
