// Clicks through the workbench as a person would. The steps are in tests/editor/workbench; each leaves a picture in out/screenshots.
import { mkdirSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { build } from "esbuild";
import { chromium } from "playwright-core";
import { chromiumOptions } from "./chromium.mjs";
import { startEditor } from "./editor-session.mjs";
import { root } from "./node.mjs";

/** @returns the steps with how they went: `{ name, ms, failure? }` */
export async function walkThrough(host, extensions, folder) {
  console.log(`\nworkbench (VS Code ${host.vscode})`);
  const work = mkdtempSync(join(tmpdir(), "mullion-walk-"));
  const pictures = join(root, "out/screenshots");
  mkdirSync(pictures, { recursive: true });
  let editor;
  let browser;
  try {
    const outfile = join(work, "steps.mjs");
    const entryPoints = [join(root, "tests/editor/workbench/steps.ts")];
    await build({ entryPoints, outfile, bundle: true, platform: "node", format: "esm", logLevel: "error" });
    const { steps } = await import(pathToFileURL(outfile).href);

    // As on a desktop: what is typed is saved when somebody saves it.
    editor = await startEditor(host, { extensions, settings: { "files.autoSave": "off" } });
    browser = await chromium.launch(await chromiumOptions());
    const page = await browser.newPage({ viewport: { width: 1400, height: 900 } });
    page.setDefaultTimeout(15_000);
    await page.goto(editor.address({ folder }));

    const results = [];
    for (const [index, step] of steps.entries()) {
      const started = Date.now();
      // Each step goes on from the one before: after a failure there is nothing to go on from.
      if (results.some(result => result.failure !== undefined)) {
        results.push({ name: step.name, ms: 0, failure: "not reached" });
        continue;
      }
      const failure = await step.run({ page, folder, kept: editor.data }).then(
        () => undefined,
        error => error.stack ?? String(error),
      );
      const ms = Date.now() - started;
      await page.screenshot({ path: join(pictures, `${String(index + 1).padStart(2, "0")}-${step.name.replaceAll(/\W+/g, "-")}.png`) });
      console.log(`│ ${failure === undefined ? "✓" : "✗"} ${step.name} (${ms} ms)`);
      if (failure !== undefined) console.log(failure.replace(/^/gm, "│     "));
      results.push({ name: step.name, ms, ...(failure !== undefined && { failure }) });
    }
    return results;
  } finally {
    await browser?.close().catch(() => {});
    await editor?.stop();
    rmSync(work, { recursive: true, force: true });
  }
}
