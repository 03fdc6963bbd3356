/** Two folders that hold the same site, names and all: what happens in one is not seen in the other. */
import assert from "node:assert/strict";
import * as vscode from "vscode";
import { at, borrow, expectFindings, file, findings, open, replace, until } from "./support/editor.ts";
import { writeResults } from "./support/results-file.ts";
import { runAll, test } from "./support/suite.ts";

const east = () => file("tannery-wharf/tannery-wharf.mullion", "east");
const west = () => file("tannery-wharf/tannery-wharf.mullion", "west");

export const run = () =>
  runAll(writeResults, [
    test("neither has anything against the other's names", async () => {
      await open(east());
      await open(west());
      await expectFindings(east(), ["until-passed"]);
      await expectFindings(west(), ["until-passed"]);
    }),

    test("a slip in one is found there and nowhere else", async () => {
      await borrow(east(), async editor => {
        await replace(editor, "02 u2", "01 u2");
        await expectFindings(east(), ["slot-clash", "until-passed"]);
        assert.deepEqual(findings(west()), ["until-passed"]);
      });
      await expectFindings(east(), ["until-passed"]);
    }),

    test("a holder is renamed on its own side", async () => {
      const { document } = await open(west());
      const place = at(document, "u3.yard", 1);
      const edit = await vscode.commands.executeCommand<vscode.WorkspaceEdit>(
        "vscode.executeDocumentRenameProvider",
        document.uri,
        place,
        "printers",
      );
      const folders = edit.entries().map(([uri]) => vscode.workspace.getWorkspaceFolder(uri)?.name);
      assert.deepEqual(folders, ["west", "west"]);
    }),

    test("a model is found on its own side", async () => {
      for (const [uri, folder] of [
        [east(), "east"],
        [west(), "west"],
      ] as const) {
        const { document } = await open(uri);
        const place = at(document, ": dunlin-3", 4);
        const found = await vscode.commands.executeCommand<(vscode.Location | vscode.LocationLink)[]>(
          "vscode.executeDefinitionProvider",
          uri,
          place,
        );
        assert.deepEqual(
          found.map(one => vscode.workspace.getWorkspaceFolder("uri" in one ? one.uri : one.targetUri)?.name),
          [folder],
        );
      }
    }),

    test("both are found by name", async () => {
      const symbols = await until("symbols of both", async () => {
        const found = await vscode.commands.executeCommand<vscode.SymbolInformation[]>(
          "vscode.executeWorkspaceSymbolProvider",
          "Lane gate",
        );
        return found.length >= 2 && found;
      });
      const folders = new Set(symbols.map(symbol => vscode.workspace.getWorkspaceFolder(symbol.location.uri)?.name));
      assert.deepEqual([...folders].sort(), ["east", "west"]);
    }),
  ]);
