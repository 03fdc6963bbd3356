/** A folder that nobody has said they trust: nothing is lost, since nothing is ever executed. */
import assert from "node:assert/strict";
import * as vscode from "vscode";
import { at, borrow, expectFindings, extension, file, hoverText, open, replace, textOf, until } from "./support/editor.ts";
import { writeResults } from "./support/results-file.ts";
import { runAll, test } from "./support/suite.ts";

const site = () => file("tannery-wharf/tannery-wharf.mullion");

export const run = () =>
  runAll(writeResults, [
    test("the folder is not trusted", async () => {
      assert.equal(vscode.workspace.isTrusted, false);
    }),

    test("the extension runs, and finds what there is to find", () =>
      borrow(site(), async editor => {
        await until("the extension to be active", () => extension().isActive);
        await replace(editor, "02 u2", "01 u2");
        await expectFindings(site(), ["slot-clash", "until-passed"]);
      })),

    test("resting on an entry shows its keys", async () => {
      const { document } = await open(site());
      assert.match(await hoverText(document, at(document, "01 u1", 4)), /48291/);
    }),

    test("the run sheet is written", async () => {
      const written = await vscode.commands.executeCommand<string[]>("mullion.exportSheet", site().toString(), "gate", "fitted");
      assert.equal(written?.length, 1, "one sheet is written");
      assert.match(await textOf(vscode.Uri.parse(written[0] ?? "")), /Lane gate/);
    }),
  ]);
