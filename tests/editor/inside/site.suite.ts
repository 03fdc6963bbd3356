/** Tannery Wharf in VS Code, from the first file opened to the run sheet on disk. */
import assert from "node:assert/strict";
import * as vscode from "vscode";
import { at, borrow, expectFindings, extension, file, findings, hoverText, open, replace, set, textOf, until } from "./support/editor.ts";
import { writeResults } from "./support/results-file.ts";
import { runAll, say, test } from "./support/suite.ts";

const siteFile = "tannery-wharf/tannery-wharf.mullion";
const holdersFile = "tannery-wharf/holders.mullion";
const modelFile = "models/dunlin-3.mullion";
/** What Tannery Wharf shows as it comes: a cleaner whose last day is past. */
const asItComes: readonly string[] = ["until-passed"];
/** An entry that is alone on its line, and the code it stands for. */
const entry = "01 u1";
const entryCode = "48291";
const installerCode = "60441";

/** Milliseconds that starting the extension shall take, and those that a busy machine is forgiven. */
const start = { aim: 60, limit: 400 };

export const run = () =>
  runAll(writeResults, [
    test("it is the packed extension, and it sleeps until a Mullion text is opened", async () => {
      assert.match(extension().extensionPath, /extensions-(newest|floor|desktop)/);
      assert.equal(extension().isActive, false);
    }),

    test("it starts quickly", async () => {
      await open(file(siteFile));
      await until("the extension to be active", () => extension().isActive);
      await extension().exports.ready;
      const ms = await startMs();
      say(`  started in ${ms} ms; ${start.aim} are the aim`);
      assert(ms < start.limit, `${ms} ms`);
    }),

    test("the findings of the site are the expected ones", async () => {
      const { document } = await open(file(siteFile));
      assert.equal(document.languageId, "mullion");
      await expectFindings(file(siteFile), asItComes);
      await expectFindings(file(holdersFile), []);
      await expectFindings(file(modelFile), []);
    }),

    test("a slip is found while it is typed, with its related place and its explanation; its quick fix makes it go away", () =>
      borrow(file(siteFile), async editor => {
        const { uri } = editor.document;
        await replace(editor, "02 u2", "01 u2");
        await expectFindings(uri, [...asItComes, "slot-clash"]);
        const found = vscode.languages.getDiagnostics(uri).find(one => codeOf(one) === "slot-clash");
        assert(found);
        assert.equal(found.severity, vscode.DiagnosticSeverity.Error);
        assert.equal(found.relatedInformation?.length, 1);
        assert.equal(typeof found.code === "object" && found.code.target.scheme, "command");
        assert(!/\d{4,}/.test(found.message), "a message holds no code");

        const actions = await vscode.commands.executeCommand<vscode.CodeAction[]>("vscode.executeCodeActionProvider", uri, found.range);
        const fix = actions.find(action => action.kind?.contains(vscode.CodeActionKind.QuickFix) && action.edit);
        assert(fix?.edit, `offered: ${actions.map(action => action.title).join(", ")}`);
        assert(await vscode.workspace.applyEdit(fix.edit));
        await expectFindings(uri, asItComes);
      })),

    test("resting on an entry shows its keys; masked, no code", async () => {
      const { document } = await open(file(siteFile));
      const place = at(document, entry, 4);
      const said = () => hoverText(document, place);
      assert((await said()).includes(entryCode));
      await set("maskCodes", true);
      await until("no digits", async () => !(await said()).includes(entryCode));
      assert.match(await said(), /•/);
      await set("maskCodes", undefined);
      await until("digits", async () => (await said()).includes(entryCode));
    }),

    test("completion offers a free slot first", () =>
      borrow(file(siteFile), async editor => {
        await replace(editor, `${entry}\n`, `${entry}\n    \n`);
        const { document } = editor;
        const place = at(document, `${entry}\n    \n`, entry.length + 5);
        const list = await vscode.commands.executeCommand<vscode.CompletionList>(
          "vscode.executeCompletionItemProvider",
          document.uri,
          place,
        );
        const sorted = [...list.items].sort((a, b) => (a.sortText ?? labelOf(a)).localeCompare(b.sortText ?? labelOf(b)));
        const slot = /^\d\d\b/.exec(labelOf(sorted[0]))?.[0];
        assert(slot, `first: ${labelOf(sorted[0])}`);
        const relay = document.getText().slice(document.offsetAt(place)).split("}")[0];
        assert(!relay?.includes(`\n    ${slot} `), `${slot} is taken`);
      })),

    test("a holder is renamed in every file that names it", () =>
      borrow(file(holdersFile), () =>
        borrow(file(siteFile), async ({ document }) => {
          const edit = await vscode.commands.executeCommand<vscode.WorkspaceEdit>(
            "vscode.executeDocumentRenameProvider",
            document.uri,
            at(document, "u3.yard", 1),
            "printers",
          );
          const files = edit.entries().map(([uri]) => vscode.workspace.asRelativePath(uri));
          assert.deepEqual(files.sort(), [holdersFile, siteFile]);
          assert(await vscode.workspace.applyEdit(edit));
          await expectFindings(file(siteFile), asItComes);
          assert.match((await vscode.workspace.openTextDocument(file(holdersFile))).getText(), /^holder printers "Unit 3, print room"$/m);
          assert.match(document.getText(), /printers\.bike/);
        }),
      )),

    test("formatting puts a line in its place and leaves the rest alone", () =>
      borrow(file(siteFile), async editor => {
        await replace(editor, `    ${entry}`, `  01    u1 // pottery`);
        const { uri } = editor.document;
        const edits = await vscode.commands.executeCommand<vscode.TextEdit[]>("vscode.executeFormatDocumentProvider", uri, {});
        const edit = new vscode.WorkspaceEdit();
        edit.set(uri, edits);
        assert(await vscode.workspace.applyEdit(edit));
        assert(editor.document.getText().includes(`\n    ${entry} // pottery\n`));
        const written = edits.reduce((sum, one) => sum + one.newText.length, 0);
        assert(written < 20, `${written} characters written`);
      })),

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

    test("a keypad's line says how many entries wait to be typed", async () => {
      const { document } = await open(file(siteFile));
      // What the tests before have put back may still be on its way.
      await expectFindings(file(siteFile), asItComes);
      const lenses = await vscode.commands.executeCommand<vscode.CodeLens[]>("vscode.executeCodeLensProvider", document.uri, 100);
      const here = lenses.filter(lens => lens.range.start.line === at(document, "keypad gate").line);
      assert.match(here.map(lens => lens.command?.title).join(" · "), /\d+ entries to type/);
    }),

    test("the run sheet is written beside the site, with the keys and without the installer code", async () => {
      const { document } = await open(file(siteFile));
      const written = await vscode.commands.executeCommand<string[]>("mullion.exportSheet", document.uri.toString(), "gate", "fitted");
      assert.equal(written?.length, 1, "one sheet is written");
      const uri = vscode.Uri.parse(written[0] ?? "");
      assert.equal(vscode.workspace.asRelativePath(uri), "tannery-wharf/tannery-wharf-gate-sheet.html");
      const sheet = await textOf(uri);
      assert.match(sheet, /Lane gate/);
      assert.match(sheet, /<kbd class="hand">(new )?installer code<\/kbd>/);
      assert(!sheet.includes(installerCode));
    }),

    test("the papers are written beside the site, each slip with its own holder's code alone", async () => {
      const { document } = await open(file(siteFile));
      const uri = document.uri.toString();
      const [register = ""] = (await vscode.commands.executeCommand<string[]>("mullion.writeRegister", uri)) ?? [];
      assert.match(register, /tannery-wharf-register\.html$/);
      assert(!/48291|55910|91827/.test(await textOf(vscode.Uri.parse(register))));
      const slips = (await vscode.commands.executeCommand<string[]>("mullion.writeSlips", uri)) ?? [];
      const second = slips.find(one => one.endsWith("tannery-wharf-slip-u2.html"));
      assert(second);
      const slip = await textOf(vscode.Uri.parse(second));
      assert.match(slip, /55910/);
      assert(!/48291|91827/.test(slip));
      const envelope = await vscode.commands.executeCommand<string[]>("mullion.writeEnvelope", uri, "gate");
      assert.deepEqual(
        envelope?.map(one => one.replace(/^.*\//, "")),
        ["tannery-wharf-gate-envelope.html"],
      );
      assert.match(await textOf(vscode.Uri.parse(envelope?.[0] ?? "")), new RegExp(installerCode));
    }),

    test("what was typed goes into the record, and the next sheet holds what is left", async () => {
      const { document } = await open(file(siteFile));
      const uri = document.uri.toString();
      const record = file("tannery-wharf/tannery-wharf.fitted.mullion");
      const waits = async () => {
        const { keypads } = await extension().exports.ask("mullion/waiting", { uri });
        return keypads.find(keypad => keypad.keypad === "boat")?.entries;
      };
      const before = await waits();
      assert(before !== undefined && before > 3);
      const lenses = await vscode.commands.executeCommand<vscode.CodeLens[]>("vscode.executeCodeLensProvider", document.uri, 100);
      assert(lenses.some(lens => lens.command?.title === "record as typed"));
      assert.equal(await vscode.commands.executeCommand("mullion.recordAsTyped", uri, "boat", "1-2"), 2);
      assert.match(await textOf(record), /^fitted boat /);
      await until("two fewer", async () => (await waits()) === before - 2);
      assert.equal(await vscode.commands.executeCommand("mullion.recordAsTyped", uri, "boat", "all"), before - 2);
      await until("none left", async () => (await waits()) === 0);
      await vscode.workspace.fs.delete(record);
      await until("all again", async () => (await waits()) === before);
    }),

    test("who opens what opens as a page; a new code is drawn for a holder and may be taken back", () =>
      borrow(file(holdersFile), async ({ document }) => {
        await vscode.commands.executeCommand("mullion.whoOpensWhat", file(siteFile).toString());
        await until("the page", () => activeTab().includes("Who opens what"));
        await vscode.commands.executeCommand("workbench.action.closeActiveEditor");
        const before = document.getText();
        await vscode.commands.executeCommand("mullion.drawCode", document.uri.toString(), "u2");
        await until("another code", () => document.getText() !== before);
        assert(!document.getText().includes("55910"));
        assert.equal(document.getText().length, before.length);
        assert(document.isDirty);
      })),

    test("a holder who leaves is taken out of the keypads, in the other file too", () =>
      borrow(file(siteFile), ({ document }) =>
        borrow(file(holdersFile), async ({ document: holders }) => {
          await vscode.commands.executeCommand("mullion.takeOut", holders.uri.toString(), "u2");
          await until("the entries to go", () => !/\bu2\b/.test(document.getText()));
          assert.match(holders.getText(), /^holder u2 /m);
        }),
      )),

    test("a new site is written, has nothing against it that matters, and is not written over", async () => {
      const folder = file("new-site");
      const written = (await vscode.commands.executeCommand<string[]>("mullion.newSite", "Heron Quay", folder.toString())) ?? [];
      assert(written.length > 0);
      const [first = ""] = written;
      const uri = vscode.Uri.parse(first);
      assert.match(await textOf(uri), /site "Heron Quay"/);
      const errors = () => vscode.languages.getDiagnostics(uri).filter(one => one.severity === vscode.DiagnosticSeverity.Error);
      await until(
        "its outline",
        async () => ((await vscode.commands.executeCommand<unknown[]>("vscode.executeDocumentSymbolProvider", uri)) ?? []).length > 0,
      );
      assert.deepEqual(errors(), []);
      await vscode.commands.executeCommand("workbench.action.closeActiveEditor");
      await vscode.workspace.fs.delete(folder, { recursive: true });
    }),

    test("an explanation opens as a rendered page", async () => {
      await vscode.commands.executeCommand("mullion.explain", "slot-clash");
      await until("the page", () => activeTab().includes("slot-clash"));
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
      const name = (n: number) => file(`many/site-${n}.mullion`);
      const moved = (n: number) => file(`moved/site-${n}.mullion`);
      const numbers = Array.from({ length: 50 }, (_, n) => n);
      // Nothing in it changes with its place: an edit would open the text, and an open text keeps its findings when its file goes.
      const text = new TextEncoder().encode('site "Elsewhere" {\n');
      await Promise.all(numbers.map(n => vscode.workspace.fs.writeFile(name(n), text)));
      await until("fifty findings", () => numbers.every(n => findings(name(n)).join() === "syntax"));

      const move = new vscode.WorkspaceEdit();
      for (const n of numbers) move.renameFile(name(n), moved(n));
      assert(await vscode.workspace.applyEdit(move));
      await until("findings at the new places", () => numbers.every(n => findings(moved(n)).length === 1));
      await until("none at the old ones", () => numbers.every(n => findings(name(n)).length === 0));

      await vscode.workspace.fs.delete(file("moved"), { recursive: true });
      await vscode.workspace.fs.delete(file("many"), { recursive: true });
      await until("none at all", () => numbers.every(n => findings(moved(n)).length === 0));
    }),
  ]);

/** Loading the extension's code and calling it, in milliseconds, from VS Code's own table of starts. */
async function startMs(): Promise<number> {
  await vscode.commands.executeCommand("perfview.show");
  const row = await until("VS Code's table of starts", () => {
    const text = vscode.workspace.textDocuments.find(document => document.uri.scheme === "perf")?.getText();
    return /^\| mullion-dev\.mullion .*$/m.exec(text ?? "")?.[0];
  });
  await vscode.commands.executeCommand("workbench.action.closeActiveEditor");
  const [, , , load, call, finish] = row.split("|").map(Number);
  return (load ?? Number.NaN) + (call ?? Number.NaN) + (finish ?? Number.NaN);
}

function activeTab(): string {
  return vscode.window.tabGroups.activeTabGroup.activeTab?.label ?? "";
}

function codeOf({ code }: vscode.Diagnostic): string {
  return String(typeof code === "object" ? code.value : code);
}

function labelOf(item: vscode.CompletionItem | undefined): string {
  return item === undefined ? "" : typeof item.label === "string" ? item.label : item.label.label;
}
