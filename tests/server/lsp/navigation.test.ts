/** From a name to where it is declared, to where else it is used, and to another name for it. */

import { expect, test } from "vitest";
import type { Location } from "vscode-languageserver/node";
import {
  DefinitionRequest,
  DocumentHighlightRequest,
  PrepareRenameRequest,
  ReferencesRequest,
  RenameRequest,
} from "vscode-languageserver/node";
import { mullion, withMarks } from "../../support/fixture.ts";
import type { EditorOptions, OpenFixture } from "./editor.ts";
import { afterEdits, inEditor, offsetsOf, uriOf } from "./editor.ts";

/** Expected places are marked in the fixture, `//^^^ here`; all files of the fixture are compared. */
async function checkPlaces(text: string, ask: (editor: OpenFixture) => Promise<readonly Location[]>, options: EditorOptions = {}) {
  await inEditor(
    text,
    async editor => {
      const places = await ask(editor);
      const marks = places.map(({ uri, range }) => {
        const { file, start, end } = offsetsOf(editor, uri, range);
        const before = editor.textOf(uri).slice(0, start);
        return {
          file,
          line: before.split("\n").length - 1,
          column: start - before.lastIndexOf("\n") - 1,
          length: end - start,
          code: "here",
        };
      });
      expect(withMarks(editor.read, marks)).toBe(withMarks(editor.read, editor.read.marks));
    },
    options,
  );
}

const at = ({ uri, position }: OpenFixture) => ({ textDocument: { uri }, position });

const definitions = async (editor: OpenFixture) =>
  [(await editor.client.sendRequest(DefinitionRequest.type, at(editor))) ?? []].flat() as Location[];
const references = (includeDeclaration: boolean) => async (editor: OpenFixture) =>
  (await editor.client.sendRequest(ReferencesRequest.type, { ...at(editor), context: { includeDeclaration } })) ?? [];
const highlights = async (editor: OpenFixture) =>
  ((await editor.client.sendRequest(DocumentHighlightRequest.type, at(editor))) ?? []).map(({ range }) => ({ uri: editor.uri, range }));

test.each([
  [
    "a holder in another file",
    mullion`
      //- main.mullion
      use "people.mullion"
      site "Wharf"
      keypad gate "Gate" : heron { relay 1 "Foot gate" { 1 $0u1 } }
      //- people.mullion
      holder u1 "Unit 1" code 4829
           //^^ here
    `,
  ],
  [
    "a named tag of a holder",
    mullion`
      site "Wharf"
      holder u3 "Unit 3"
        code 4829
        tag bike 123,00334
          //^^^^ here
      keypad gate "Gate" : heron { relay 1 "Foot gate" { 1 u3.b$0ike } }
    `,
  ],
  [
    "the unnamed code that is meant by its kind",
    mullion`
      site "Wharf"
      holder u3 "Unit 3"
        code 4829
      //^^^^ here
      keypad gate "Gate" : heron { relay 1 "Foot gate" { 1 u3.$0code } }
    `,
  ],
  [
    "a model, from a keypad",
    mullion`
      model heron "Heron" { codes 4 digits }
          //^^^^^ here
      keypad gate "Gate" : $0heron {
      }
    `,
  ],
  [
    "a keypad, from its fitted record",
    mullion`
      //- main.mullion
      site "Wharf"
      keypad gate "Gate" : heron {
           //^^^^ here
      }
      //- main.fitted.mullion
      fitted ga$0te 2026-11-20 { model heron }
    `,
  ],
  [
    "a door, from a relay with its label",
    mullion`
      keypad gate "Gate" : heron { relay 1 "Foot$0 gate" { } }
      door "Foot gate" { exit lever }
         //^^^^^^^^^^^ here
    `,
  ],
  [
    "a setting of the model",
    mullion`
      model heron "Heron" {
        setting "key light" 0..2 factory 1  81 {value:1} OK
              //^^^^^^^^^^^ here
      }
      keypad gate "Gate" : heron { setting "k$0ey light" 1 }
    `,
  ],
  [
    "a holder, while the entry is half typed and other lines are wrong",
    mullion`
      holder u1 "Unit 1" code 4829
           //^^ here
      holder
      keypad gate "Gate" : heron {
        relay 1 "Foot gate" {
          1 $0u1.
          2
        }
    `,
  ],
  ["nothing where there is no name", mullion`site $0 "Wharf"`],
])("definition: %s", (_what, text) => checkPlaces(text, definitions));

test.each([
  [
    "a holder, with its declaration",
    true,
    mullion`
      //- main.mullion
      use "people.mullion"
      site "Wharf"
      keypad gate "Gate" : heron {
        installer code firm.gate
        relay 1 "Foot gate" {
          1 $0u1
          //^^ here
          2 u1.tag
          //^^ here
          3 firm or u1.tag
                  //^^ here
        }
      }
      //- people.mullion
      holder u1 "Unit 1" code 4829
           //^^ here
      holder firm "Our own codes" code gate 6044
    `,
  ],
  [
    "an unnamed code, where the holder alone stands for it too",
    false,
    mullion`
      holder u1 "Unit 1"
        $0code 4829
        tag 8061261
      keypad gate "Gate" : heron {
        relay 1 "Foot gate" {
          1 u1
          //^^ here
          2 u1.tag
          3 u1.code
             //^^^^ here
        }
      }
    `,
  ],
  [
    "a model, in every site that uses its file",
    true,
    mullion`
      //- main.mullion
      use "heron.mullion"
      site "One"
      keypad gate "Gate" : $0heron { }
                         //^^^^^ here
      //- other.mullion
      use "heron.mullion"
      site "Two"
      keypad gate "Gate" : heron { }
                         //^^^^^ here
      //- heron.mullion
      model heron "Heron" { }
          //^^^^^ here
    `,
  ],
])("references: %s", (_what, includeDeclaration, text) =>
  checkPlaces(text, async editor => {
    await editor.workspace.indexed;
    return references(includeDeclaration)(editor);
  }),
);

test("highlights: the same name in this file only", () =>
  checkPlaces(
    mullion`
      //- main.mullion
      use "people.mullion"
      holder u1 "Unit 1" code 4829
           //^^ here
      keypad gate "Gate" : heron { relay 1 "Foot gate" { 1 $0u1 } }
                                                         //^^ here
      //- people.mullion
      keypad back "Back" : heron { relay 1 "Back" { 1 u1 } }
    `,
    highlights,
  ));

async function checkRename(text: string, name: string, expected: string): Promise<void> {
  await inEditor(text, async editor => {
    const edit = await editor.client.sendRequest(RenameRequest.type, { ...at(editor), newName: name });
    const changed = afterEdits(editor, edit);
    const files = new Map([...editor.read.files].map(([file, before]) => [file, changed.get(file) ?? before]));
    expect(withMarks({ files }, [])).toBe(withMarks({ files: (await import("../../support/fixture.ts")).fixture(expected).files }, []));
  });
}

test("rename: a holder in every file, from a use, its labels left alone", () =>
  checkRename(
    mullion`
      //- main.mullion
      use "people.mullion"
      site "Wharf"
      keypad gate "u1" : heron { installer code u1.gate relay 1 "u1" { 1 $0u1 } }
      //- people.mullion
      holder u1 "u1" // u1
        code 4829
        code gate 6044
    `,
    "pottery",
    mullion`
      //- main.mullion
      use "people.mullion"
      site "Wharf"
      keypad gate "u1" : heron { installer code pottery.gate relay 1 "u1" { 1 pottery } }
      //- people.mullion
      holder pottery "u1" // u1
        code 4829
        code gate 6044
    `,
  ));

test("rename: a named code, in the holder and where it is placed, and not another holder's of that name", () =>
  checkRename(
    mullion`
      holder u1 "Unit 1" code yard 4829
      holder u2 "Unit 2" code yard 5591
      keypad gate "Gate" : heron { relay 1 "Foot gate" { 1 u1.yard 2 u2.ya$0rd } }
    `,
    "court",
    mullion`
      holder u1 "Unit 1" code yard 4829
      holder u2 "Unit 2" code court 5591
      keypad gate "Gate" : heron { relay 1 "Foot gate" { 1 u1.yard 2 u2.court } }
    `,
  ));

test("rename: a door, on its relays, where it is described and where it is fed", () =>
  checkRename(
    mullion`
      keypad gate "Foot gate" : heron { relay 1 "Foot gate" { } relay 2 "Vehicle gate" { } }
      keypad back "Back" : heron { relay 1 "Foot$0 gate" { } }
      door "Foot gate" { exit lever }
      supply cupboard "Cupboard" 12 V 1 A { feeds "Foot gate", keypad gate }
    `,
    'River "north" gate',
    mullion`
      keypad gate "Foot gate" : heron { relay 1 "River \"north\" gate" { } relay 2 "Vehicle gate" { } }
      keypad back "Back" : heron { relay 1 "River \"north\" gate" { } }
      door "River \"north\" gate" { exit lever }
      supply cupboard "Cupboard" 12 V 1 A { feeds "River \"north\" gate", keypad gate }
    `,
  ));

test("prepare rename: a door's label without its quotes", () =>
  inEditor('door "Foot$0 gate" { exit lever }', async editor => {
    const answer = await editor.client.sendRequest(PrepareRenameRequest.type, at(editor));
    expect(answer).toEqual({ range: { start: { line: 0, character: 6 }, end: { line: 0, character: 15 } }, placeholder: "Foot gate" });
  }));

test("rename: a keypad, with its fitted record", () =>
  checkRename(
    mullion`
      //- main.mullion
      site "Wharf"
      keypad $0gate "Gate" : heron { }
      //- main.fitted.mullion
      fitted gate 2026-11-20 { model heron }
    `,
    "lane",
    mullion`
      //- main.mullion
      site "Wharf"
      keypad lane "Gate" : heron { }
      //- main.fitted.mullion
      fitted lane 2026-11-20 { model heron }
    `,
  ));

test.each([
  ["a name that is taken", 'holder $0u1 "Unit 1" code 4829\nholder u2 "Unit 2" code 5591', "u2", /already a holder u2/],
  ["what is no name", 'holder $0u1 "Unit 1" code 4829', "1u", /a name is a letter/],
  ["a word that begins something", 'holder $0u1 "Unit 1" code 4829', "relay", /begins something of its own/],
  ["a door without a label", 'door "Foot$0 gate" { exit lever }', " ", /a label is a line of text/],
  ["a door's label that another has", 'door "Foot$0 gate" { }\nkeypad g "G" : heron { relay 1 "Gate" { } }', "Gate", /already a door Gate/],
])("rename is refused: %s", (_what, text, name, reason) =>
  inEditor(text, async editor => {
    await expect(editor.client.sendRequest(RenameRequest.type, { ...at(editor), newName: name })).rejects.toThrow(reason);
  }),
);

test("prepare rename: the word alone, from a use", () =>
  inEditor('holder u1 "Unit 1" code 4829\nkeypad g "G" : heron { relay 1 "R" { 1 u$01 } }', async editor => {
    const answer = await editor.client.sendRequest(PrepareRenameRequest.type, at(editor));
    expect(answer).toEqual({ range: { start: { line: 1, character: 39 }, end: { line: 1, character: 41 } }, placeholder: "u1" });
  }));

test("two folders with the same names: neither renames the other", () =>
  inEditor(
    mullion`
      //- one/main.mullion
      site "Same"
      holder $0u1 "Unit 1" code 4829
      //- two/main.mullion
      site "Same"
      holder u1 "Unit 1" code 4829
    `,
    async editor => {
      const edit = await editor.client.sendRequest(RenameRequest.type, { ...at(editor), newName: "pottery" });
      expect([...afterEdits(editor, edit).keys()]).toEqual(["/one/main.mullion"]);
    },
    { folders: [uriOf("/one"), uriOf("/two")] },
  ));
