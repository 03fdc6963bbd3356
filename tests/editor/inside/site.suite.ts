/** Tannery Wharf in VS Code, from the first file opened to the run sheet on disk. */
import assert from "node:assert/strict";
import * as vscode from "vscode";
import { at, expectFindings, extension, file, findings, hoverText, open, replace, set, textOf, until } from "./support/editor.ts";
import { writeResults } from "./support/results-file.ts";
import { runAll, say, test } from "./support/suite.ts";

const siteFile = "tannery-wharf.mullion";
const modelFile = "models/dunlin-3.mullion";
/** What Tannery Wharf shows as it comes. */
const asItComes: readonly string[] = [];
/** An entry that is alone on its line, and the code it stands for. */
const entry = "01 u1";
const entryCode = "48291";

/** Milliseconds that starting the extension may take. */
const startLimitMs = 60;

export const run = () =>
  runAll(writeResults, [
    test("it is the packed extension, and it sleeps until a Mullion text is opened", async () => {
      assert.match(extension().extensionPath, /extensions-(newest|floor|desktop)/);
      assert.equal(extension().isActive, false);
    }),

    test("it starts quickly", async () => {
      const started = performance.now();
      await extension().activate();
      const ms = performance.now() - started;
      say(`  started in ${ms.toFixed(0)} ms`);
      assert(ms < startLimitMs, `${ms.toFixed(0)} ms`);
      await extension().exports.ready;
    }),

    test("the findings of the site are the expected ones", async () => {
      const editor = await open(file(siteFile));
      assert.equal(editor.document.languageId, "mullion");
      await expectFindings(file(siteFile), asItComes);
      await expectFindings(file(modelFile), []);
    }),

    test("a slip is found while it is typed, with its related place and its explanation", async () => {
      const editor = await open(file(siteFile));
      await replace(editor, "02 u2", "01 u2");
      await expectFindings(file(siteFile), [...asItComes, "slot-clash"]);
      const [found] = vscode.languages.getDiagnostics(file(siteFile)).filter(one => codeOf(one) === "slot-clash");
      assert(found);
      assert.equal(found.severity, vscode.DiagnosticSeverity.Error);
      assert.equal(found.relatedInformation?.length, 1);
      assert.equal(typeof found.code === "object" && found.code.target.scheme, "command");
      assert(!/\d{4,}/.test(found.message), "a message holds no code");
    }),

    test("its quick fix makes it go away, and brings nothing new", async () => {
      const uri = file(siteFile);
      const document = await vscode.workspace.openTextDocument(uri);
      const place = new vscode.Range(at(document, "01 u2"), at(document, "01 u2", 5));
      const actions = await vscode.commands.executeCommand<vscode.CodeAction[]>("vscode.executeCodeActionProvider", uri, place, "quickfix");
      const fix = actions.find(action => action.edit && /slot/.test(action.title));
      assert(fix?.edit, `offered: ${actions.map(action => action.title).join(", ")}`);
      assert(await vscode.workspace.applyEdit(fix.edit));
      await expectFindings(uri, asItComes);
      await vscode.commands.executeCommand("workbench.action.files.revert");
    }),

    test("resting on an entry shows its keys; masked, no code", async () => {
      const { document } = await open(file(siteFile));
      const place = at(document, entry, 4);
      assert.match(await hoverText(document, place), /48291/);
      await set("maskCodes", true);
      const masked = await until("dots", async () => /•/.test(await hoverText(document, place)) && (await hoverText(document, place)));
      assert.doesNotMatch(masked, /48291/);
      await set("maskCodes", undefined);
      await until("digits", async () => (await hoverText(document, place)).includes(entryCode));
    }),

    test("completion offers the next free slot first, then holders", async () => {
      const editor = await open(file(siteFile));
      await replace(editor, `${entry}\n`, `${entry}\n    \n`);
      const place = at(editor.document, `${entry}\n    \n`, entry.length + 5);
      const list = await vscode.commands.executeCommand<vscode.CompletionList>(
        "vscode.executeCompletionItemProvider",
        editor.document.uri,
        place,
      );
      const sorted = [...list.items].sort((a, b) => (a.sortText ?? labelOf(a)).localeCompare(b.sortText ?? labelOf(b)));
      assert.match(labelOf(sorted[0]), /^05\b/);
      await vscode.commands.executeCommand("workbench.action.files.revert");
    }),

    test("a model is renamed in every file that names it", async () => {
      const { document } = await open(file(siteFile));
      const place = at(document, ": dunlin-3", 4);
      const edit = await vscode.commands.executeCommand<vscode.WorkspaceEdit>(
        "vscode.executeDocumentRenameProvider",
        document.uri,
        place,
        "dunlin-4",
      );
      const files = edit.entries().map(([uri]) => vscode.workspace.asRelativePath(uri));
      assert.deepEqual(files.sort(), [modelFile, siteFile].sort());
      assert(await vscode.workspace.applyEdit(edit));
      await expectFindings(file(siteFile), asItComes);
      assert.match((await vscode.workspace.openTextDocument(file(modelFile))).getText(), /model dunlin-4 /);
      await vscode.commands.executeCommand("workbench.action.files.revert");
      await open(file(modelFile));
      await vscode.commands.executeCommand("workbench.action.files.revert");
      await expectFindings(file(siteFile), asItComes);
    }),

    test("formatting puts a line in its place and leaves the rest alone", async () => {
      const editor = await open(file(siteFile));
      await replace(editor, `    ${entry}`, `  01    u1 // pottery`);
      const edits = await vscode.commands.executeCommand<vscode.TextEdit[]>(
        "vscode.executeFormatDocumentProvider",
        editor.document.uri,
        {},
      );
      const edit = new vscode.WorkspaceEdit();
      edit.set(editor.document.uri, edits);
      assert(await vscode.workspace.applyEdit(edit));
      assert(editor.document.getText().includes(`\n    ${entry} // pottery\n`));
      const changed = edits.reduce((sum, one) => sum + one.newText.length, 0);
      assert(changed < 20, `${changed} characters written`);
      await vscode.commands.executeCommand("workbench.action.files.revert");
    }),

    test("names lead to where they are given, and are listed", async () => {
      const { document } = await open(file(siteFile));
      const found = await vscode.commands.executeCommand<(vscode.Location | vscode.LocationLink)[]>(
        "vscode.executeDefinitionProvider",
        document.uri,
        at(document, ": dunlin-3", 4),
      );
      const target = found[0];
      assert(target);
      assert.equal(vscode.workspace.asRelativePath("uri" in target ? target.uri : target.targetUri), modelFile);
      const symbols = await vscode.commands.executeCommand<vscode.SymbolInformation[]>("vscode.executeWorkspaceSymbolProvider", "dunlin");
      assert(symbols.some(symbol => symbol.name.includes("dunlin-3")));
    }),

    test("the run sheet is written beside the site, with the keys and without the installer code", async () => {
      const { document } = await open(file(siteFile));
      const written = await vscode.commands.executeCommand<string[]>("mullion.exportSheet", document.uri.toString(), "gate");
      assert.equal(written.length, 1);
      const uri = vscode.Uri.parse(written[0] ?? "");
      assert.equal(vscode.workspace.asRelativePath(uri), "tannery-wharf-gate-sheet.md");
      const sheet = await textOf(uri);
      assert.match(sheet, /Lane gate/);
      assert.match(sheet, /\[installer code\]/);
      assert.doesNotMatch(sheet, /60441/);
    }),

    test("an explanation opens as a rendered page", async () => {
      await vscode.commands.executeCommand("mullion.explain", "slot-clash");
      const tab = await until("the page", () => vscode.window.tabGroups.activeTabGroup.activeTab?.label.includes("slot-clash") && "there");
      assert.equal(tab, "there");
      await vscode.commands.executeCommand("workbench.action.closeActiveEditor");
    }),

    test("the other side of a diff is coloured and nothing else", async () => {
      const before = vscode.workspace.registerTextDocumentContentProvider("before", {
        provideTextDocumentContent: () => 'holder u1 "Unit 1"\nholder u1 "Unit 1"\n',
      });
      const old = await vscode.workspace.openTextDocument(vscode.Uri.parse("before:/old.mullion"));
      assert.equal(old.languageId, "mullion");
      await new Promise(resolve => setTimeout(resolve, 500));
      assert.deepEqual(findings(old.uri), []);
      assert.equal(await hoverText(old, new vscode.Position(0, 8)), "");
      before.dispose();
    }),

    test("fifty files that come, move and go leave no finding behind", async () => {
      const name = (n: number) => `many/site-${n}.mullion`;
      const numbers = Array.from({ length: 50 }, (_, n) => n);
      const text = new TextEncoder().encode('use "nowhere.mullion"\nsite "Elsewhere" {}\n');
      await Promise.all(numbers.map(n => vscode.workspace.fs.writeFile(file(name(n)), text)));
      await until("fifty findings", () => numbers.every(n => findings(file(name(n))).join() === "use-missing"));

      const move = new vscode.WorkspaceEdit();
      for (const n of numbers) move.renameFile(file(name(n)), file(`moved/site-${n}.mullion`));
      assert(await vscode.workspace.applyEdit(move));
      await until("findings at the new places", () => numbers.every(n => findings(file(`moved/site-${n}.mullion`)).length === 1));
      await until("none at the old ones", () => numbers.every(n => findings(file(name(n))).length === 0));

      await vscode.workspace.fs.delete(file("moved"), { recursive: true });
      await vscode.workspace.fs.delete(file("many"), { recursive: true });
      await until("none at all", () => numbers.every(n => findings(file(`moved/site-${n}.mullion`)).length === 0));
    }),
  ]);

function codeOf({ code }: vscode.Diagnostic): string {
  return String(typeof code === "object" ? code.value : code);
}

function labelOf(item: vscode.CompletionItem | undefined): string {
  return item === undefined ? "" : typeof item.label === "string" ? item.label : item.label.label;
}
