/** What the accessibility checker says of a page. */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type { Page } from "playwright-core";

const source = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

/** Each broken rule with its first place; the page has to be opened with its content policy out of force. */
export async function violations(page: Page): Promise<readonly string[]> {
  await page.evaluate(source);
  return page.evaluate(async () => {
    const runner = (globalThis as unknown as { axe: { run(): Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> } }).axe;
    return (await runner.run()).violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`);
  });
}
