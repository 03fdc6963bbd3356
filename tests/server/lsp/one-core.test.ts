/** The editor shows exactly what `mullion check` prints: for the samples, and for the two examples of every check. */
import { execFileSync } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import type { CodeAction, Diagnostic, WorkspaceDiagnosticReport } from "vscode-languageserver/node";
import { CodeActionRequest, WorkspaceDiagnosticRequest } from "vscode-languageserver/node";
import { TextDocument } from "vscode-languageserver-textdocument";
import { findingsAcross } from "../../../shared/checks/across.ts";
import { checks } from "../../../shared/checks/index.ts";
import { findingsOf, fixesFor } from "../../../shared/checks/run.ts";
import { loadSite } from "../../../shared/site/load.ts";
import { fixture, sourceIn, tiny, today } from "../../support/fixture.ts";
import { afterEdits, fileOf, modern, offsetsOf, startEditor } from "./editor.ts";

const root = join(import.meta.dirname, "../../..");
const severities = ["", "error", "warning", "information", "hint"];

async function shownFor(files: ReadonlyMap<string, string>) {
  const editor = await startEditor(files, { client: modern });
  try {
    const report = await editor.client.sendRequest(WorkspaceDiagnosticRequest.type, { previousResultIds: [] });
    return { editor, items: itemsOf(report) };
  } finally {
    await editor.end();
  }
}

function itemsOf(report: WorkspaceDiagnosticReport): { uri: string; item: Diagnostic }[] {
  return report.items.flatMap(each => (each.kind === "full" ? each.items.map(item => ({ uri: each.uri, item })) : []));
}

/** One line a finding, so that a difference reads as one. */
const inOrder = (lines: readonly object[]) => lines.map(line => JSON.stringify(line)).sort();

/** What `mullion check` prints of a folder, and what the editor shows of it; each finding with its place, words and related places. */
async function bothOf(cwd: string, folder: string): Promise<{ printed: readonly object[]; shown: readonly object[]; files: number }> {
  const files = new Map<string, string>();
  for (const name of readdirSync(join(cwd, folder), { recursive: true, encoding: "utf8" }))
    if (/\.(mullion|mullion\.age|names)$/.test(name)) files.set(`/${folder}/${name}`, readFileSync(join(cwd, folder, name), "utf8"));
  let printed = "";
  try {
    const asked = [join(root, "out/mullion.js"), "check", folder, "--format", "json", "--today", today];
    printed = execFileSync(process.execPath, asked, { cwd, encoding: "utf8" });
  } catch (error) {
    // Findings of severity error make the status 1.
    expect((error as { status?: number }).status).toBe(1);
    printed = (error as { stdout: string }).stdout;
  }
  const { items } = await shownFor(files);
  const shown = items.map(({ uri, item: { range, severity, code, message, relatedInformation } }) => ({
    file: fileOf(uri).slice(1),
    line: range.start.line + 1,
    column: range.start.character + 1,
    endLine: range.end.line + 1,
    endColumn: range.end.character + 1,
    severity: severities[severity ?? 0],
    code,
    message,
    related: (relatedInformation ?? []).map(({ location, message }) => ({
      file: fileOf(location.uri).slice(1),
      line: location.range.start.line + 1,
      column: location.range.start.character + 1,
      message,
    })),
  }));
  return { printed: (JSON.parse(printed) as { findings: object[] }).findings, shown, files: files.size };
}

test("the samples: as on the command line, place for place and word for word", async () => {
  const { printed, shown, files } = await bothOf(root, "samples");
  expect(files).toBeGreaterThan(5);
  expect(inOrder(shown)).toEqual(inOrder(printed));
});

test("the samples, damaged: cut off, lines missing, other line ends, byte order marks", async () => {
  const cwd = mkdtempSync(join(tmpdir(), "mullion-damaged-"));
  try {
    const folder = join(root, "samples/tannery-wharf");
    const whole = readFileSync(join(folder, "tannery-wharf.mullion"), "utf8");
    const lines = whole.split("\n");
    const damaged = [
      ...Array.from({ length: 12 }, (_, part) => whole.slice(0, Math.floor((whole.length * (part + 1)) / 13))),
      ...Array.from({ length: 12 }, (_, part) => lines.filter((_line, at) => at % 12 !== part).join("\n")),
      whole.replaceAll("\n", "\r\n"),
      `\ufeff${whole.replaceAll("01 u1", "01")}`,
      whole.replace("01 u1", "<<<<<<< ours\n    01 u1\n=======\n    01 u2\n>>>>>>> theirs"),
      "",
    ];
    damaged.forEach((text, at) => {
      const own = join(cwd, "damaged", String(at), "tannery-wharf");
      mkdirSync(own, { recursive: true });
      cpSync(join(root, "samples/models"), join(own, "../models"), { recursive: true });
      for (const name of readdirSync(folder)) if (name.endsWith(".mullion")) cpSync(join(folder, name), join(own, name));
      writeFileSync(join(own, "tannery-wharf.mullion"), text);
    });
    const { printed, shown } = await bothOf(cwd, "damaged");
    expect(printed.length).toBeGreaterThan(50);
    expect(inOrder(shown)).toEqual(inOrder(printed));
  } finally {
    rmSync(cwd, { recursive: true });
  }
});

const examples = checks.flatMap(({ code, explain }) => [
  { code, example: "triggers", text: explain.triggers },
  { code, example: "quiet", text: explain.quiet },
]);

const isSite = (text: string) => /^site\b/m.test(text);

/** A fixture's files in a folder of their own; the small model stands in for one that is not said, at the end so that nothing moves. */
function filesOf(text: string): Map<string, string> {
  const read = fixture(text);
  const files = new Map(read.files);
  const needsTiny = ![...files.values()].some(each => /^\s*model\s/m.test(each));
  if (!needsTiny) return files;
  for (const [file, text] of read.files) if (file === read.root || isSite(text)) files.set(file, `${text}\nuse "tiny.mullion"\n`);
  return files.set("/tiny.mullion", tiny);
}

test.each(examples)("$code, $example: as the checks find it", async ({ text }) => {
  const files = filesOf(text);
  const { editor, items } = await shownFor(files);
  const shown = items.map(({ uri, item }) => ({
    ...offsetsOf({ ...editor, textOf: () => files.get(fileOf(uri)) ?? "" }, uri, item.range),
    code: item.code,
    message: item.message,
  }));
  const open = (file: string) => sourceIn(files, file);
  const roots = [...files].filter(([, source], index) => index === 0 || isSite(source)).map(([file]) => file);
  const sites = roots.map(root => loadSite(root, open));
  const found = [...sites.flatMap(site => findingsOf(site, { today })), ...findingsAcross(sites)].map(
    ({ file, start, end, code, message }) => ({ file, start, end, code, message }),
  );
  expect(inOrder(shown)).toEqual(inOrder(found));
});

test.each(checks)("$code: the editor offers the ways out that the check knows, with their edits", async ({ explain }) => {
  const files = filesOf(explain.triggers);
  const [first = ""] = files.keys();
  const site = loadSite(first, file => sourceIn(files, file));
  const editor = await startEditor(files);
  try {
    for (const finding of findingsOf(site, { today })) {
      const uri = await editor.open(finding.file);
      const document = TextDocument.create(uri, "mullion", 1, files.get(finding.file) ?? "");
      const range = { start: document.positionAt(finding.start), end: document.positionAt(finding.end) };
      const context = { diagnostics: [], only: ["quickfix"] };
      const offered = (await editor.client.sendRequest(CodeActionRequest.type, { textDocument: { uri }, range, context })) as CodeAction[];
      for (const fix of fixesFor(finding, site)) {
        const action = offered.find(each => each.title === fix.title && each.diagnostics?.[0]?.code === finding.code);
        expect(action?.kind, fix.title).toBe("quickfix");
        const after = afterEdits(editor, action?.edit);
        for (const file of new Set(fix.edits.map(edit => edit.file))) {
          const text = files.get(file) ?? "";
          const edits = fix.edits.filter(edit => edit.file === file).sort((one, other) => other.start - one.start || other.end - one.end);
          expect(after.get(file), fix.title).toBe(
            edits.reduce((now, edit) => now.slice(0, edit.start) + edit.text + now.slice(edit.end), text),
          );
        }
      }
    }
  } finally {
    await editor.end();
  }
});
