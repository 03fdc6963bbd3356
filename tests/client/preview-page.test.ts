/** The page around a previewed sheet lets nothing in and nothing out. */
import { expect, test } from "vitest";
import { emptyPage, previewOf } from "../../client/preview-page.ts";

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

test("a page that was open is known again by what it kept", () => {
  const of = { uri: "file:///sites/tannery-wharf.mullion", keypads: ["gate"] };
  expect(previewOf({ of, scroll: 120 })).toEqual(of);
});

test.each([
  [undefined],
  [{ scroll: 120 }],
  [{ of: { uri: 7, keypads: ["gate"] } }],
  [{ of: { uri: "file:///a.mullion", keypads: "gate" } }],
  [{ of: { uri: "file:///a.mullion", keypads: [7] } }],
])("what another version kept is not taken for a page: %j", kept => {
  expect(previewOf(kept)).toBeUndefined();
});
