#!/usr/bin/env node
// Stands where @vscode/test-electron expects the program `code`: takes its test arguments, starts our VS Code in a headless
// Chromium, and ends with the exit code of the suite that ran in the extension host. 3: the suite did not run to its end.
import { existsSync, mkdirSync, statSync } from "node:fs";
import { dirname } from "node:path";
import { chromium } from "playwright-core";
import { chromiumOptions } from "./chromium.mjs";
import { prepareHost } from "./editor-host.mjs";
import { startEditor } from "./editor-session.mjs";

const didNotRun = 3;
const limitSeconds = Number(process.env.MULLION_EDITOR_LIMIT ?? 90);
const given = new Map();
let toOpen;
for (const arg of process.argv.slice(2)) {
  const [, name, value] = /^--([^=]+)(?:=(.*))?$/s.exec(arg) ?? [];
  if (name) given.set(name, value ?? true);
  else toOpen = arg;
}

let editor;
let browser;
async function end(status) {
  await Promise.race([browser?.close().catch(() => {}), new Promise(done => setTimeout(done, 3000))]);
  await editor?.stop();
  process.exit(status);
}
for (const signal of ["SIGINT", "SIGTERM"]) process.on(signal, () => end(130));

try {
  const log = process.env.MULLION_EDITOR_LOG ? line => console.log(line) : () => {};
  editor = await startEditor(await prepareHost(process.env.MULLION_EDITOR_HOST ?? "newest"), {
    extensions: given.get("extensions-dir"),
    trust: process.env.MULLION_EDITOR_TRUST === "1",
    log,
  });
  browser = await chromium.launch(await chromiumOptions());
  const page = await browser.newPage({ viewport: { width: 1400, height: 900 } });
  page.on("console", message => log(`[page] ${message.text()}`));

  const finished = new Promise(resolve => {
    page.on("crash", () => resolve("the page crashed"));
    setTimeout(() => resolve(`the suite did not end within ${limitSeconds} s`), 1000 * limitSeconds).unref();
    page.exposeFunction("codeAutomationExit", resolve);
  });
  // The extension host's console arrives here, among VS Code's own log; the suite marks its lines.
  await page.exposeFunction("codeAutomationLog", (kind, words) => {
    const line = words.map(word => (typeof word === "string" ? word : JSON.stringify(word))).join(" ");
    log(`[${kind}] ${line}`);
    if (line.startsWith("│")) console.log(line);
  });

  const remote = path => `vscode-remote://localhost:${editor.port}${path}`;
  const payload = [
    ["extensionDevelopmentPath", remote(given.get("extensionDevelopmentPath"))],
    ["extensionTestsPath", remote(given.get("extensionTestsPath"))],
    ["skipWelcome", "true"],
  ];
  const open = toOpen && statSync(toOpen).isFile() ? { workspace: toOpen } : { folder: toOpen };
  await page.goto(editor.address(open, payload), { timeout: 30_000 });
  const result = await finished;
  if (result !== 0) await keepPicture(page);
  if (typeof result !== "number") console.error(result);
  await end(typeof result === "number" ? result : didNotRun);
} catch (error) {
  console.error(error);
  await end(didNotRun);
}

/** What the window looked like when a suite failed. */
async function keepPicture(page) {
  const path = process.env.MULLION_EDITOR_PICTURE;
  if (!path) return;
  if (!existsSync(dirname(path))) mkdirSync(dirname(path), { recursive: true });
  await page.screenshot({ path }).catch(() => {});
}
