/** What an editor asks beyond the protocol: sheets, what waits, explanations, who opens what, a new code, a new site. */
import { expect, test } from "vitest";
import { parse } from "../../../grammar/parse.ts";
import { explain } from "../../../shared/checks/explain.ts";
import { findingsOf } from "../../../shared/checks/run.ts";
import type { Requests } from "../../../shared/requests.ts";
import { loadSite } from "../../../shared/site/load.ts";
import { mullion, today } from "../../support/fixture.ts";
import type { Editor } from "./editor.ts";
import { afterEdits, inEditor, uriOf } from "./editor.ts";

const site = mullion`
  //- wharf.mullion
  use "tiny.mullion"
  use "people.mullion"
  site "Tannery Wharf"
  keypad plover "Plover" : tiny {
    installer code firm.gate
    relay 1 "Foot gate" {
      1 u1
      2 u2
    }
  }
  //- people.mullion
  holder u1 "Unit 1" code 4829
  holder u2 "Unit 2" code 5591
  holder firm "Our own codes" code gate 6044
`;

function ask<M extends keyof Requests>(editor: Editor, method: M, params: Requests[M]["params"]): Promise<Requests[M]["result"]> {
  return editor.client.sendRequest(method, params);
}

test("a sheet for each keypad, to stand beside the site's file, asked for from a file that the site uses", () =>
  inEditor(site, async editor => {
    const { uri, files, held } = await ask(editor, "mullion/sheet", { uri: uriOf("/people.mullion"), format: "md" });
    expect(uri).toBe(uriOf("/wharf.mullion"));
    expect(files.map(({ name }) => name)).toEqual(["wharf-plover-sheet.md"]);
    expect(files[0]?.content).toContain("Foot gate");
    expect(files[0]?.content).toContain("4829");
    expect(files[0]?.content).not.toContain("6044");
    expect(held).toEqual([]);
  }));

test("a sheet starts from what is fitted, from factory, or from a reset where the model has one", () =>
  inEditor(
    `${site}
  //- wharf.fitted.mullion
  fitted plover 2026-03-01 {
    model tiny
    installer code 6044
    relay 1 {
      1 code 4829
      2 code 5591
    }
  }
`,
    async editor => {
      const entries = async (from: "fitted" | "factory" | "reset") => {
        const { files, held } = await ask(editor, "mullion/sheet", { uri: editor.uri, format: "json", from });
        return files.length === 0 ? held[0]?.reasons[0] : JSON.parse(files[0]?.content ?? "").keypads[0].counts.entries;
      };
      expect([await entries("fitted"), await entries("factory"), await entries("reset")]).toEqual([
        0,
        3,
        "model tiny has no reset that wipes everything; plan from what is fitted",
      ]);
    },
  ));

test("a sheet without codes", () =>
  inEditor(site, async editor => {
    const { files } = await ask(editor, "mullion/sheet", { uri: editor.uri, format: "txt", hideCodes: true });
    expect(files[0]?.content).not.toMatch(/4829|5591|6044/);
  }));

test("a sheet that an error holds back says why, without a code", () =>
  inEditor(site.replace("2 u2", "1 u2"), async editor => {
    const { files, held } = await ask(editor, "mullion/sheet", { uri: editor.uri, format: "md" });
    expect(files).toEqual([]);
    expect(held).toMatchObject([{ keypad: "plover", label: "Plover" }]);
    expect(held[0]?.reasons.join()).toContain("already holds");
    expect(held[0]?.reasons.join()).not.toMatch(/4829|5591/);
  }));

test("a sheet of a keypad that is not there is refused in words", () =>
  inEditor(site, async editor => {
    await expect(ask(editor, "mullion/sheet", { uri: editor.uri, format: "md", keypads: ["heron"] })).rejects.toThrow(
      "The site has no keypad heron.",
    );
    await expect(ask(editor, "mullion/sheet", { uri: uriOf("/nowhere.mullion"), format: "md" })).rejects.toThrow(/belongs to no site/);
  }));

test("a sheet beside the text knows the place that each entry comes from", () =>
  inEditor(site, async editor => {
    const { sheets, held, style } = await ask(editor, "mullion/preview", { uri: editor.uri });
    expect(held).toEqual([]);
    expect(style).toContain("--vscode-editor-foreground");
    const [sheet] = sheets;
    expect(sheet?.keypad).toBe("plover");
    expect(sheet?.html).not.toMatch(/<script|<style|<link|<img|6044/);
    const lines = (editor.read.files.get("/wharf.mullion") ?? "").split("\n");
    const from = (sheet?.entries ?? []).map(({ n, uri, start, end }) => {
      expect(sheet?.html).toContain(`data-n="${n}"`);
      expect(uri).toBe(uriOf("/wharf.mullion"));
      expect(start.line).toBe(end.line);
      return lines[start.line]?.slice(start.character, end.character);
    });
    expect(from).toEqual(["installer code firm.gate", "1 u1", "2 u2"]);
  }));

test("a sheet beside the text holds no code where codes are masked, and says what holds it back", () =>
  inEditor(site, async editor => {
    const masked = await ask(editor, "mullion/preview", { uri: editor.uri, hideCodes: true });
    expect(masked.sheets[0]?.html).not.toMatch(/4829|5591|6044/);
    expect(await ask(editor, "mullion/preview", { uri: editor.uri, keypads: ["heron"] })).toMatchObject({ sheets: [], held: [] });
  }));

test("a slip is a file of its own, with nobody else's code; other papers hold none", () =>
  inEditor(site, async editor => {
    const slips = await ask(editor, "mullion/paper", { uri: editor.uri, paper: "slips", format: "html" });
    expect(slips.files.map(({ name }) => name)).toEqual(["wharf-slip-u1.html", "wharf-slip-u2.html"]);
    expect(slips.files.map(({ content }) => content.match(/4829|5591|6044/g))).toEqual([["4829"], ["5591"]]);
    for (const paper of ["register", "visit", "handover"] as const) {
      const { files, held } = await ask(editor, "mullion/paper", { uri: editor.uri, paper, format: "md" });
      expect(files.map(({ name }) => name)).toEqual([`wharf-${paper}.md`]);
      expect(files[0]?.content).not.toMatch(/4829|5591|6044/);
      expect(held).toEqual([]);
    }
  }));

test("an envelope is made only of a keypad that is named", () =>
  inEditor(site, async editor => {
    const envelope = { uri: editor.uri, paper: "envelope", format: "txt" } as const;
    await expect(ask(editor, "mullion/paper", envelope)).rejects.toThrow("Name the keypad whose installer code is wanted.");
    const { files } = await ask(editor, "mullion/paper", { ...envelope, keypads: ["plover"] });
    expect(files.map(({ name }) => name)).toEqual(["wharf-plover-envelope.txt"]);
    expect(files[0]?.content).toContain("6 0 4 4");
  }));

test("a paper leaves out a keypad that an error holds back, and says why without a code", () =>
  inEditor(site.replace("2 u2", "1 u2"), async editor => {
    const { files, held } = await ask(editor, "mullion/paper", { uri: editor.uri, paper: "slips", format: "md" });
    expect(files).toEqual([]);
    expect(held).toMatchObject([{ keypad: "plover", label: "Plover" }]);
    expect(held[0]?.reasons.join()).toContain("already holds");
  }));

test("what waits to be typed, of one site and of all", () =>
  inEditor(site, async editor => {
    await editor.workspace.indexed;
    const [keypad, ...others] = (await ask(editor, "mullion/waiting", { uri: editor.uri })).keypads;
    expect(others).toEqual([]);
    expect(keypad).toMatchObject({ uri: uriOf("/wharf.mullion"), site: "Tannery Wharf", keypad: "plover", label: "Plover", entries: 3 });
    const all = await ask(editor, "mullion/waiting", {});
    expect([all.keypads, all.markdown?.split("\n").slice(4, 5)]).toEqual([
      [keypad],
      ["| Tannery Wharf | plover Plover | none | 3 | 1 |  |"],
    ]);
  }));

test("an explanation is the one that the command line prints; none for what is no finding", () =>
  inEditor(site, async editor => {
    expect(await ask(editor, "mullion/explain", { code: "slot-clash" })).toEqual({ markdown: explain("slot-clash") });
    expect(await ask(editor, "mullion/explain", { code: "nothing" })).toEqual({});
  }));

test("who opens what, without a code", () =>
  inEditor(site, async editor => {
    const { markdown } = await ask(editor, "mullion/who", { uri: editor.uri });
    expect(markdown).toContain("Foot gate");
    expect(markdown).toContain("Unit 2");
    expect(markdown).not.toMatch(/4829|5591|6044/);
  }));

test("a new code is an edit of the file that declares the holder, and another each time", () =>
  inEditor(site, async editor => {
    const drawn = new Set<string>();
    for (let time = 0; time < 5; time++) {
      const { edits, refused } = await ask(editor, "mullion/draw", { uri: editor.uri, holder: "u1" });
      expect(refused).toBeUndefined();
      const changes = edits.map(
        ({ uri, changes }) => [uri, changes.map(({ start, end, text }) => ({ range: { start, end }, newText: text }))] as const,
      );
      const after = afterEdits(editor, { changes: Object.fromEntries(changes) });
      expect([...after.keys()]).toEqual(["/people.mullion"]);
      drawn.add(/holder u1 "Unit 1" code (\d{4})$/m.exec(after.get("/people.mullion") ?? "")?.[1] ?? "none");
    }
    expect(drawn.size).toBeGreaterThan(1);
    expect(drawn).not.toContain("4829");
    expect(drawn).not.toContain("none");
  }));

test("a new code for nobody is refused in words", () =>
  inEditor(site, async editor => {
    expect(await ask(editor, "mullion/draw", { uri: editor.uri, holder: "u9" })).toEqual({
      edits: [],
      refused: "there is no holder u9 here",
    });
  }));

test("a new site has no finding but what is to be seen to", () =>
  inEditor(site, async editor => {
    const { files } = await ask(editor, "mullion/newSite", { name: 'Kettle "Yard" Ωmega' });
    expect(files.map(({ name }) => name)).toEqual(["kettle-yard-ωmega.mullion", "models/first-keypad.mullion"]);
    const texts = new Map(files.map(({ name, content }) => [`/${name}`, content]));
    const loaded = loadSite("/kettle-yard-ωmega.mullion", file => {
      const text = texts.get(file);
      return text === undefined ? undefined : { file, text, ...parse(text) };
    });
    expect(loaded.label).toBe('Kettle "Yard" Ωmega');
    expect(findingsOf(loaded, { today }).map(({ code, message }) => `${code}: ${message}`)).toEqual([]);
  }));
