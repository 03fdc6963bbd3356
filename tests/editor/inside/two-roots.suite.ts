/** Two folders that hold the same site, names and all: what happens in one is not seen in the other. */
import assert from "node:assert/strict";
import * as vscode from "vscode";
import { at, expectFindings, file, findings, open, replace, until } from "./support/editor.ts";
import { writeResults } from "./support/results-file.ts";
import { runAll, test } from "./support/suite.ts";

const east = () => file("tannery-wharf.mullion", "east");
const west = () => file("tannery-wharf.mullion", "west");

export const run = () =>
  runAll(writeResults, [
    test("neither has anything against the other's names", async () => {
      await open(east());
      await open(west());
      await expectFindings(east(), []);
      await expectFindings(west(), []);
    }),

    test("a slip in one is found there and nowhere else", async () => {
      const editor = await open(east());
      await replace(editor, "02 u2", "01 u2");
      await expectFindings(east(), ["slot-clash"]);
      assert.deepEqual(findings(west()), []);
      await vscode.commands.executeCommand("workbench.action.files.revert");
      await expectFindings(east(), []);
    }),

    test("a holder is renamed on its own side", async () => {
      const { document } = await open(west());
      const place = at(document, "holder u1", 8);
      const edit = await vscode.commands.executeCommand<vscode.WorkspaceEdit>(
        "vscode.executeDocumentRenameProvider",
        document.uri,
        place,
        "pottery",
      );
      assert.deepEqual(
        edit.entries().map(([uri]) => uri.toString()),
        [west().toString()],
      );
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
