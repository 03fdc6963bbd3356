/** `mullion replay`: what a simulated keypad makes of keys. */
import { describe, expect, test } from "vitest";
import { replayKeys } from "../../../server/cli/replay/replay-keys.ts";
import type { Surroundings } from "../../../server/cli/surroundings.ts";
import { folderOf, model, mullion, site } from "./support/mullion.ts";

const files = {
  "tiny.mullion": model,
  "yard.mullion": site,
  "yard.fitted.mullion": "fitted gate 2026-01-02 {\n  model tiny\n  installer code 6044\n  relay 1 {\n    3 code 7304\n  }\n}\n",
};

test("a transcript, then the memory; all taken is status 0", () => {
  expect(mullion(["replay", "tiny.mullion", "--keys", "OK 2468 OK 7 1 1 4829 OK OK OK"], { cwd: folderOf(files) })).toEqual({
    status: 0,
    out: `OK 2468 OK     → enter, taken
7 1 1 4829 OK  → put code, taken
OK OK          → leave, taken

memory
  installer code 2468
  relay 1
    1 code 4829
`,
    err: "",
  });
});

test("a refusal says why, changes nothing, and is status 1", () => {
  const { status, out } = mullion(["replay", "tiny.mullion", "--keys", "OK 2468 OK 7 1 9 4829 OK"], { cwd: folderOf(files) });
  expect(status).toBe(1);
  expect(out).toBe("OK 2468 OK     → enter, taken\n7 1 9 4829 OK  → put code, refused: slot-range\n\nmemory\n  installer code 2468\n");
});

test("JSON has the documented shape", () => {
  const { status, out } = mullion(["replay", "tiny.mullion", "--format", "json", "--keys", "OK 2468 OK 5 7 1 1 4829 OK"], {
    cwd: folderOf(files),
  });
  expect(status).toBe(1);
  expect(JSON.parse(out)).toEqual({
    steps: [
      { operation: "enter", keys: ["OK", "2468", "OK"], taken: true },
      { operation: "unknown keys", keys: ["5"], taken: false, reason: "unknown-keys" },
      { operation: "put code", keys: ["7", "1", "1", "4829", "OK"], taken: true },
    ],
    memory: { installer: "2468", allRelay: [], settings: {}, releases: {}, slots: [{ relay: "1", slot: 1, fires: ["1"], code: "4829" }] },
  });
});

test("keys come from standard input, over several lines", () => {
  expect(mullion(["replay", "tiny.mullion"], { cwd: folderOf(files), input: "OK 2468 OK\n9 1 1 OK\r\nOK OK\n" }).status).toBe(0);
});

test("what cannot be read on standard input is told by its line", () => {
  const { err, status } = mullion(["replay", "tiny.mullion"], { cwd: folderOf(files), input: "OK 2468 OK\r\n7 1 1 ok\n" });
  expect(status).toBe(2);
  expect(err).toContain("the keys cannot be read in line 2, at character 7: expected keys");
});

test("at a terminal each line is answered at once; one that cannot be read is told, and not typed", () => {
  const heard: string[] = [];
  const typed = ["OK 2468 OK 7 1\n", "oh dear\n", " 1 4829 OK\n", "7 1 9 4829 OK"];
  const around: Surroundings = {
    cwd: folderOf(files),
    out: text => heard.push(`${text}`),
    err: text => heard.push(text),
    colour: false,
    readInput: () => "",
    *typedLines() {
      for (const line of typed) {
        heard.push(`> ${line}`);
        yield line;
      }
    },
    today: () => "2026-11-25",
  };
  expect(replayKeys("tiny.mullion", { format: "text" }, around)).toBe(1);
  const [greeting, ...rest] = heard;
  expect(greeting).toMatch(/^Type keys as in a model, .* ends/);
  expect(rest[3]).toMatch(/^the keys cannot be read at character 1: expected keys .*; nothing of this line was typed\n$/);
  expect([...rest.slice(0, 3), ...rest.slice(4)]).toEqual([
    "> OK 2468 OK 7 1\n",
    "OK 2468 OK  → enter, taken\n7 1         → half typed, nothing has happened yet\n",
    "> oh dear\n",
    ">  1 4829 OK\n",
    "7 1 1 4829 OK  → put code, taken\n",
    "> 7 1 9 4829 OK",
    "7 1 9 4829 OK  → put code, refused: slot-range\n",
    "\nmemory\n  installer code 2468\n  relay 1\n    1 code 4829\n",
  ]);
});

test("no keys: nothing is typed, the factory memory is shown", () => {
  expect(mullion(["replay", "tiny.mullion"], { cwd: folderOf(files) })).toEqual({
    status: 0,
    out: "memory\n  installer code 2468\n",
    err: "",
  });
});

describe("--from", () => {
  test.each(["yard.mullion", "yard.fitted.mullion"])("%s: starts from what is fitted", from => {
    const { status, out } = mullion(["replay", "tiny.mullion", "--from", from, "--keypad", "gate", "--keys", "OK 6044 OK"], {
      cwd: folderOf(files),
    });
    expect(status).toBe(0);
    expect(out).toBe("OK 6044 OK  → enter, taken\n\nmemory\n  installer code 6044\n  relay 1\n    3 code 7304\n");
  });
});

describe("wrong usage", () => {
  test.each([
    [
      "a field among the keys",
      ["tiny.mullion", "--keys", "OK {installer} OK"],
      "{installer} stands among the keys; write what is typed in its place",
    ],
    [
      "a model that is not there",
      ["tiny.mullion", "--model", "tony"],
      "tiny.mullion has no model tony that can be used (did you mean tiny?); it has tiny",
    ],
    [
      "a file without a model",
      ["yard.fitted.mullion"],
      "yard.fitted.mullion has no model that can be used; mullion check yard.fitted.mullion says why",
    ],
    [
      "a record that does not know the keypad",
      ["tiny.mullion", "--from", "yard.mullion", "--keypad", "gatt"],
      "yard.mullion has no keypad gatt that can be used (did you mean gate?)",
    ],
  ])("%s", (_what, line, said) => {
    const { status, out, err } = mullion(["replay", ...line], { cwd: folderOf(files) });
    expect({ status, out }).toEqual({ status: 2, out: "" });
    expect(err).toContain(said);
  });
});

test("keys that are no whole entry yet are shown, and nothing has happened", () => {
  const words = ["replay", "samples/models/dunlin-3.mullion", "--keys", "OK 24680 OK  7 4 01 482"];
  const { out, status } = mullion(words);
  expect(status).toBe(0);
  expect(out).toContain("7 4 01 482   → half typed, nothing has happened yet\n");
  expect(JSON.parse(mullion([...words, "--format", "json"]).out)).toMatchObject({
    steps: [{ operation: "enter" }],
    halfTyped: ["7", "4", "01", "482"],
  });
});
