/** A folder of many small sites: checked as a whole, and opened in an editor. */
import { spawn, spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import {
  DidChangeTextDocumentNotification,
  DidOpenTextDocumentNotification,
  DocumentDiagnosticRequest,
  WorkspaceDiagnosticRequest,
} from "vscode-languageserver/node";
import { modelIds, siteText } from "./generate.ts";
import { serverProcess } from "./server-process.ts";
import { today } from "./today.ts";

const root = join(import.meta.dirname, "../..");

export interface Folder {
  readonly path: string;
  readonly remove: () => void;
}

/** So many sites of fifty lines, a hundred in each folder, and the models that they use. */
export function folderOf(sites: number): Folder {
  const path = mkdtempSync(join(tmpdir(), "mullion-bench-"));
  mkdirSync(join(path, "models"));
  for (const id of modelIds)
    writeFileSync(join(path, `models/${id}.mullion`), readFileSync(join(root, `samples/models/${id}.mullion`), "utf8"));
  for (let site = 0; site < sites; site++) {
    const folder = join(path, `area-${Math.floor(site / 100)}`);
    mkdirSync(folder, { recursive: true });
    writeFileSync(join(folder, `site-${site}.mullion`), siteText(50, { folder: "../models" }, site));
  }
  return { path, remove: () => rmSync(path, { recursive: true, force: true }) };
}

export interface CheckedFolder {
  readonly ms: number;
  /** Processor time of all threads. */
  readonly cpuMs: number;
  /** The most memory that the process had at any time. */
  readonly peakBytes: number;
  readonly files: number;
  readonly findings: number;
}

/** `mullion check .`, as it is built, in a process of its own. */
export function checkFolder({ path }: Folder): CheckedFolder {
  const begun = performance.now();
  const words = ["--require", join(import.meta.dirname, "peak-probe.cjs"), join(root, "out/mullion.js")];
  const run = spawnSync(process.execPath, [...words, "check", ".", "--format", "json", "--today", today], {
    cwd: path,
    encoding: "utf8",
    maxBuffer: 1 << 28,
  });
  const ms = performance.now() - begun;
  const probe = /peak (\{.*\})/.exec(run.stderr);
  if (!probe?.[1]) throw new Error(`mullion check ended with status ${run.status}: ${run.stderr}`);
  const { findings, files } = JSON.parse(run.stdout) as { readonly findings: readonly unknown[]; readonly files: number };
  const { peakBytes, cpuMs } = JSON.parse(probe[1]) as { readonly peakBytes: number; readonly cpuMs: number };
  return { ms, cpuMs, peakBytes, files, findings: findings.length };
}

/** From opening one of its files to that file's findings: with the whole folder open, and alone, each in a server that has just started. */
export async function firstFindings({ path }: Folder, withFolder: boolean): Promise<number> {
  const server = await serverProcess([join(root, "out/server.js"), "--stdio"], true, withFolder ? pathToFileURL(path).href : undefined);
  const file = join(path, "area-0/site-42.mullion");
  const uri = pathToFileURL(file).href;
  const begun = performance.now();
  await server.client.sendNotification(DidOpenTextDocumentNotification.type, {
    textDocument: { uri, languageId: "mullion", version: 1, text: readFileSync(file, "utf8") },
  });
  await server.client.sendRequest(DocumentDiagnosticRequest.type, { textDocument: { uri } });
  const ms = performance.now() - begun;
  server.end();
  return ms;
}

/** Processor time of the server for one keystroke in one of the files, with the whole folder open and checked. */
export async function typingInFolder({ path }: Folder, keystrokes: number): Promise<number> {
  const server = await serverProcess([join(root, "out/server.js"), "--stdio"], true, pathToFileURL(path).href);
  const { client } = server;
  const file = join(path, "area-0/site-42.mullion");
  const uri = pathToFileURL(file).href;
  const text = readFileSync(file, "utf8");
  await client.sendNotification(DidOpenTextDocumentNotification.type, {
    textDocument: { uri, languageId: "mullion", version: 1, text },
  });
  await client.sendRequest(WorkspaceDiagnosticRequest.type, { previousResultIds: [] });
  const start = { line: 0, character: 0 };
  const warmUp = 5;
  let before = await server.probe();
  for (let version = 2; version < 2 + warmUp + keystrokes; version++) {
    if (version === 2 + warmUp) before = await server.probe();
    const contentChanges = [{ range: { start, end: start }, text: " " }];
    await client.sendNotification(DidChangeTextDocumentNotification.type, { textDocument: { uri, version }, contentChanges });
    await client.sendRequest(DocumentDiagnosticRequest.type, { textDocument: { uri } });
  }
  const { cpuMs } = await server.probe();
  server.end();
  return (cpuMs - before.cpuMs) / keystrokes;
}

/** Wall time of a program started with these words. */
export async function startOf(words: readonly string[], cwd: string): Promise<number> {
  const begun = performance.now();
  const child = spawn(process.execPath, words, { cwd, stdio: "ignore" });
  await new Promise(resolve => child.once("exit", resolve));
  return performance.now() - begun;
}
