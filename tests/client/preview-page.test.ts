/** The page around a previewed sheet lets nothing in and nothing out. */
import { expect, test } from "vitest";
import { emptyPage } from "../../client/preview-page.ts";

test("only its own script runs, and nothing is fetched", () => {
  const page = emptyPage();
  const policy = /Content-Security-Policy" content="([^"]+)"/.exec(page)?.[1];
  const nonce = /<script nonce="([^"]+)">/.exec(page)?.[1];
  expect(policy).toBe(`default-src 'none'; style-src 'nonce-${nonce}'; script-src 'nonce-${nonce}'`);
  expect(page.match(/<script/g)).toHaveLength(1);
});

test("the number that lets the script run is drawn anew for each page", () => {
  expect(emptyPage()).not.toBe(emptyPage());
});
