/** A site whose codes are sealed: shut until an identity is given, then a text like any other, and sealed again when it is saved. */
import assert from "node:assert/strict";
import * as vscode from "vscode";
import { at, expectFindings, extension, file, hoverText, open, replace, textOf, until } from "./support/editor.ts";
import { writeResults } from "./support/results-file.ts";
import { runAll, test } from "./support/suite.ts";

const site = () => file("saltings-yard/saltings-yard.mullion");
const sealed = () => file("saltings-yard/people.mullion.age");
const view = () => sealed().with({ scheme: "mullion-sealed" });
const bytes = async () => Buffer.from(await vscode.workspace.fs.readFile(sealed()));
const identity = () => textOf(file("saltings-yard/test-identity.txt"));
const tabOfBytes = () =>
  vscode.window.tabGroups.all.flatMap(group => group.tabs).find(({ input }) => input instanceof vscode.TabInputCustom);
const shownText = () => vscode.window.activeTextEditor?.document.uri.toString() === view().toString();

export const run = () =>
  runAll(writeResults, [
    test("without an identity: names are known, and it is said once for each file what was not looked at", async () => {
      await open(site());
      await until("the extension to be active", () => extension().isActive);
      await expectFindings(site(), ["sealed-shut", "sealed-shut"]);
    }),

    test("the sealed file is shown as such, and its text cannot be had", async () => {
      await vscode.commands.executeCommand("vscode.open", sealed());
      await until("the sealed file's tab", tabOfBytes);
      await assert.rejects(async () => vscode.workspace.openTextDocument(view()), /no identity/);
    }),

    test("something that is no identity is not kept", async () => {
      // The command says so in the window; what counts is that nothing is open.
      void vscode.commands.executeCommand("mullion.unlock", "AGE-SECRET-KEY-1NOT");
      await assert.rejects(async () => vscode.workspace.openTextDocument(view()), /no identity/);
      await vscode.commands.executeCommand("notifications.clearAll");
    }),

    test("unlocked, the text takes the place of the bytes, and everything is checked", async () => {
      assert.equal(await vscode.commands.executeCommand("mullion.unlock", await identity()), true);
      await until("the text in the place of the bytes", () => shownText() && !tabOfBytes());
      assert.equal(vscode.window.activeTextEditor?.document.languageId, "mullion");
      await expectFindings(site(), []);
    }),

    test("resting on an entry shows its keys", async () => {
      const { document } = await open(site());
      const said = await hoverText(document, at(document, "01 berth1", 4));
      const code = /holder berth1\b[\s\S]*?code\s+(\d+)/.exec((await vscode.workspace.openTextDocument(view())).getText())?.[1];
      assert.ok(code && said.includes(code), "the hover has the code of the sealed file");
    }),

    test("what is typed is checked before it is saved", async () => {
      const editor = await open(view());
      await replace(editor, "holder berth1", "holder berth9");
      await expectFindings(site(), ["name-unknown", "name-unknown"]);
      await replace(editor, "holder berth9", "holder berth1");
      await expectFindings(site(), []);
    }),

    test("saved, it is sealed: the file begins as sealed files do, opens to the new text, and holds nothing in clear", async () => {
      const before = await bytes();
      const editor = await open(view());
      await replace(editor, "holder berth1", "// Written in the editor.\nholder berth1");
      assert.equal(await editor.document.save(), true);
      const after = await bytes();
      assert.ok(after.toString("latin1").startsWith("age-encryption.org/v1"), "sealed");
      assert.ok(!after.equals(before) && !after.includes("Written in the editor"), "new, and not in clear");
      const opened = await extension().exports.ask("mullion/unseal", { uri: view().toString() });
      assert.match("text" in opened ? opened.text : "", /Written in the editor\.\nholder berth1/);
    }),

    test("saved again without a change, the file stays as it is", async () => {
      const before = await bytes();
      const { document } = await open(view());
      await vscode.workspace.fs.writeFile(view(), Buffer.from(document.getText()));
      assert.ok((await bytes()).equals(before), "the very same bytes");
    }),

    test("no folder, removal or new name through the view", async () => {
      await assert.rejects(async () => vscode.workspace.fs.delete(view()), /sealed file itself/);
      await assert.rejects(async () => vscode.workspace.fs.rename(view(), view().with({ path: `${view().path}.old` })));
    }),

    test("locked, it is shut again", async () => {
      await vscode.commands.executeCommand("workbench.action.closeAllEditors");
      await vscode.commands.executeCommand("mullion.lock");
      await open(site());
      await expectFindings(site(), ["sealed-shut", "sealed-shut"]);
      await assert.rejects(async () => vscode.workspace.fs.readFile(view()), /no identity/);
    }),
  ]);
