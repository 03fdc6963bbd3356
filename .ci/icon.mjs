// Draws client/icons/mullion.png from mullion.svg, 128 pixels square: galleries of extensions take no SVG. `node .ci/icon.mjs`
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { chromium } from "playwright-core";
import { chromiumOptions } from "./chromium.mjs";
import { root } from "./node.mjs";

const icons = join(root, "client/icons");
const browser = await chromium.launch(await chromiumOptions());
const page = await browser.newPage({ viewport: { width: 128, height: 128 } });
await page.setContent(`<style>body { margin: 0 }</style>${readFileSync(join(icons, "mullion.svg"), "utf8")}`);
writeFileSync(join(icons, "mullion.png"), await page.screenshot({ omitBackground: true }));
await browser.close();
