/** Files and folders that move, and the texts that name them. */

import { expect, test } from "vitest";
import { WillRenameFilesRequest } from "vscode-languageserver/node";
import { mullion } from "../../support/fixture.ts";
import { afterEdits, inEditor, uriOf } from "./editor.ts";

const wharf = mullion`
  //- sites/wharf.mullion
  use "../models/heron.mullion"
  use "people.mullion"
  site "Wharf"
  //- sites/people.mullion
  use "../models/heron.mullion"
  //- models/heron.mullion
  model heron "Heron" { }
`;

async function checkMove(from: string, to: string, expected: Record<string, readonly string[]>): Promise<void> {
  await inEditor(wharf, async editor => {
    const files = [{ oldUri: uriOf(from), newUri: uriOf(to) }];
    const edit = await editor.client.sendRequest(WillRenameFilesRequest.type, { files });
    const uses = [...afterEdits(editor, edit)].map(([file, text]) => [file, text.split("\n").filter(line => line.startsWith("use"))]);
    expect(Object.fromEntries(uses)).toEqual(expected);
  });
}

test("a used file: every text that names it follows", () =>
  checkMove("/models/heron.mullion", "/models/new/heron-2.mullion", {
    "/sites/wharf.mullion": ['use "../models/new/heron-2.mullion"', 'use "people.mullion"'],
    "/sites/people.mullion": ['use "../models/new/heron-2.mullion"'],
  }));

test("a file that uses others: its own paths follow", () =>
  checkMove("/sites/wharf.mullion", "/wharf.mullion", {
    "/sites/wharf.mullion": ['use "models/heron.mullion"', 'use "sites/people.mullion"'],
  }));

test("a folder: what is in it keeps its paths to one another", () =>
  checkMove("/sites", "/all/sites", {
    "/sites/wharf.mullion": ['use "../../models/heron.mullion"', 'use "people.mullion"'],
    "/sites/people.mullion": ['use "../../models/heron.mullion"'],
  }));

test("a file that nobody names: no edit", () =>
  inEditor(wharf, async editor => {
    const files = [{ oldUri: uriOf("/notes.mullion"), newUri: uriOf("/notes-2.mullion") }];
    expect(await editor.client.sendRequest(WillRenameFilesRequest.type, { files })).toBeNull();
  }));

test("a path that leads nowhere stays as written, so that moving the file to where it is right mends it", async () => {
  const misplaced = mullion`
    //- wharf.mullion
    use "../models/heron.mullion"
    use "people.mullion"
    site "Wharf"
    //- people.mullion
    //- models/heron.mullion
    model heron "Heron" { }
  `;
  await inEditor(misplaced, async editor => {
    const files = [{ oldUri: uriOf("/wharf.mullion"), newUri: uriOf("/sites/wharf.mullion") }];
    const edit = await editor.client.sendRequest(WillRenameFilesRequest.type, { files });
    const text = afterEdits(editor, edit).get("/wharf.mullion") ?? "";
    expect(text.split("\n").slice(0, 2)).toEqual(['use "../models/heron.mullion"', 'use "../people.mullion"']);
  });
});

const withRecord = `${wharf}
  //- sites/wharf.fitted.mullion
  fitted gate unknown
`;

/** Files that the edit itself moves. */
async function alsoMoved(moves: readonly (readonly [string, string])[]): Promise<unknown[]> {
  return inEditor(withRecord, async editor => {
    const files = moves.map(([from, to]) => ({ oldUri: uriOf(from), newUri: uriOf(to) }));
    const edit = await editor.client.sendRequest(WillRenameFilesRequest.type, { files });
    return (edit?.documentChanges ?? []).flatMap(change =>
      "kind" in change && change.kind === "rename" ? [[change.oldUri, change.newUri]] : [],
    );
  });
}

test("a site's record goes along with it", async () => {
  const record = [uriOf("/sites/wharf.fitted.mullion"), uriOf("/sites/tannery.fitted.mullion")];
  expect(await alsoMoved([["/sites/wharf.mullion", "/sites/tannery.mullion"]])).toEqual([record]);
});

test("a record that moves by itself, or with its folder, is not moved twice", async () => {
  expect(await alsoMoved([["/sites", "/all"]])).toEqual([]);
  const both = [
    ["/sites/wharf.mullion", "/sites/tannery.mullion"],
    ["/sites/wharf.fitted.mullion", "/sites/tannery.fitted.mullion"],
  ] as const;
  expect(await alsoMoved(both)).toEqual([]);
});
