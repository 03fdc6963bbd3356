/** A site whose every label tries to be something else, through every command and every format: nothing of it is more than text. */
import { parse as parseCsv } from "csv-parse/sync";
import { describe, expect, test, vi } from "vitest";
import { commands } from "../../../server/cli/commands/index.ts";
import { runProgram } from "../../../server/cli/program.ts";
import { repositoryOf } from "./support/repository.ts";

// Put in by the build.
vi.hoisted(() => Object.assign(globalThis, { MULLION_VERSION: "0" }));

/** Each label stands in for one that says `plain`, and must change nothing but words. */
const labels: Readonly<Record<string, string>> = {
  markup: "<script>alert(1)</script><img src=x onerror=alert(1)>",
  "the end of a style": "</style></title><svg onload=alert(1)> ]]> &lt;b&gt;",
  attributes: "' onmouseover='alert(1)' \\\" onfocus=\\\"alert(1)",
  formula: "=HYPERLINK(1+1)",
  "a command for a spreadsheet": "@SUM(1+9)*cmd|' /C calc'!A0",
  "formula behind a sign": ";=1+1;+2;-3",
  "full-width formula": "＝1+1",
  tabs: "\t=1\t+1",
  "escape sequences": "\u001b[2J\u001b]0;title\u0007\u001b]8;;x\u001b\\\\gone\u009b31m",
  backspaces: "one\u0008\u0008\u0008two\u000b\u000c",
  "line ends of other sorts": "one\u2028::error::two\u2029three\u0085four",
  "the direction of writing": "\u202eevil\u202c \u2066x\u2069 \u200f\u061cy",
  "what nobody sees": "a\u200bb\u2060c\ufeffd\u00ade\ufffbf",
  "a workflow's command": "::error file=x.mullion,line=1::forged %0A::warning::two",
  "table, fence, link": "a | b `c` ``` [d](https://example.invalid) ![e](f) # g **h** ~~i~~ $j$ <k@example.invalid>",
  "halves and zero": "x\u0000y",
};

const words = (label: string) => `"${label}"`;

function files(label: string): Readonly<Record<string, string>> {
  const said = words(label);
  return {
    "model.mullion": `model tiny ${said} {
  keys     0..9 OK C
  relays   1 = 1, 2 = 2
  slots    1..3 per relay
  codes    4 digits
  rewrite  replaces
  twins    refused
  release  1s..9s
  refused  shows ${said}
  cancel   C
  reset    wipes everything ${said}
  setting  ${said} 0..2 factory 1 81 {value:1} OK
  enter           OK {installer} OK                   shows ${said}
  leave           OK OK                               shows ${said}
  put code        7 {relay} {slot} {code} OK          shows ${said}
  put tag         8 {relay} {slot} [present tag] OK   shows ${said}
  clear slot      9 {relay} {slot} OK                 shows ${said}
  set installer   31 {code} {code} OK                 shows ${said}
  set release     6 {relay} {seconds:1} OK            shows ${said}
  open code       {code}
  open tag        [present tag]
  factory {
    installer code 2468
  }
}
`,
    "yard.mullion": `use "model.mullion"
site ${said} {
  address ${said}
  contact ${said}
  note ${said}
}
holder own "${label} of ours" code gate 6044
holder u1 ${said} code 4829
holder u2 "${label} two" until 2026-11-20 code 5590 tag 8061261 ${said}
holder u3 "${label} three" tag "${label} fob"
keypad gate ${said} : tiny {
  installer code own.gate
  setting ${said} 2
  relay 1 "${label} one" release 5s {
    1 u1
    2 u2
    3 u3
  }
  relay 2 "${label} two" release 2s {
    1 u2.tag
  }
}
door "${label} one" {
  lock strike 12 V 350 mA fail-secure
  cable 128 m 0.75 mm2
  exit lever
  route escape
}
supply cupboard ${said} 13.8 V 1 A {
  battery 12 V 2 Ah for 40 h
  feeds "${label} one", keypad gate
}
`,
  };
}

/** Commands that print, each in all of its formats. */
const printed: readonly (readonly [string, readonly string[]])[] = [
  ["check .", ["text", "json", "sarif", "github", "junit"]],
  ["sheet yard.mullion -o -", ["html", "md", "csv", "json", "txt"]],
  ["waiting .", ["text", "csv", "json"]],
  ["who yard.mullion", ["text", "csv", "json", "html", "md"]],
  ["doors yard.mullion", ["text", "csv", "json", "md"]],
  ["register yard.mullion -o -", ["html", "md", "txt"]],
  ["slips yard.mullion --holder u1 -o -", ["html", "md", "txt"]],
  ["visit yard.mullion -o -", ["html", "md", "txt"]],
  ["handover yard.mullion -o -", ["html", "md", "txt"]],
  ["envelope yard.mullion --keypad gate -o -", ["html", "md", "txt"]],
  ["review yard.mullion --since HEAD", ["text", "md", "json"]],
  ["replay model.mullion --keys OK", ["text", "json"]],
  ["leave yard.mullion --holder u1 --dry-run", [""]],
  ["issue yard.mullion --holder u1", [""]],
];
const runs = printed.flatMap(([line, formats]) => formats.map(format => [line, format] as const));

async function said(cwd: string, line: string, format: string): Promise<{ readonly out: string; readonly err: string }> {
  let [out, err] = ["", ""];
  const today = /^(?:leave|issue|replay|envelope|doors)/.test(line) ? [] : ["--today", "2026-11-25"];
  await runProgram([...line.split(" "), ...(format ? ["--format", format] : []), ...today], commands, {
    cwd,
    out: text => {
      out += typeof text === "string" ? text : Buffer.from(text).toString("utf8");
    },
    err: text => {
      err += text;
    },
    colour: false,
    readInput: () => "",
    typedLines: undefined,
    today: () => "2026-11-25",
  });
  return { out, err };
}

function yard(label: string): string {
  return repositoryOf(files(label));
}

/** Tags and the names of their attributes, in order; what stands in them and between them is left out. */
function structure(html: string): readonly string[] {
  return [...html.matchAll(/<(\/?[a-zA-Z!][^\s>]*)((?:"[^"]*"|[^">])*)>/g)].map(([, tag, rest = ""]) =>
    [tag, ...[...rest.matchAll(/([a-zA-Z-]+)(?:="[^"]*")?/g)].map(([, name]) => name)].join(" "),
  );
}

/** Rows of tables by their number of cells, headings, list items: what Markdown makes of the lines. */
function blocks(markdown: string): readonly string[] {
  return markdown.split("\n").map(line => {
    const bare = line.replaceAll(/\\./g, "");
    if (bare.startsWith("|")) return `row of ${bare.split("|").length}`;
    return /^\s*(#+ |- \[ \] |- |\d+\. |> |```|---|<)?/.exec(bare)?.[0].replace(/\d+/, "1") ?? "";
  });
}

const steering = /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u00ad\u061c\u200b\u200e\u200f\u2028-\u202e\u2060-\u2067\ufeff\ufffb]/;

describe.each(Object.entries(labels))("labels with %s", (_, label) => {
  test("change words, and nothing else", async () => {
    const [hostile, plain] = [yard(label), yard("plain")];
    for (const [line, format] of runs) {
      const what = `${line} --format ${format}`;
      const [{ out, err }, usual] = [await said(hostile, line, format), await said(plain, line, format)];
      expect(usual.out.length + usual.err.length, what).toBeGreaterThan(4);
      // Nothing steers a terminal, whoever reads it there.
      expect(err, what).not.toMatch(steering);
      if (format === "csv") {
        expect(out.slice(1).replaceAll("\r\n", "\n"), what).not.toMatch(steering);
        const [rows, usualRows] = [out, usual.out].map(text => parseCsv(text, { bom: true }) as string[][]);
        expect(
          rows?.map(row => row.length),
          what,
        ).toEqual(usualRows?.map(row => row.length));
        for (const cell of rows?.flat() ?? []) expect(cell, what).not.toMatch(/^\s*[=+\-@＝＋－＠]|;\s*[=+\-@＝＋－＠]/);
        continue;
      }
      if (format !== "sarif" && format !== "json") expect(out, what).not.toMatch(steering);
      if (format === "html") expect(structure(out), what).toEqual(structure(usual.out));
      else if (format === "md") expect(blocks(out), what).toEqual(blocks(usual.out));
      else if (format === "github") expect(out.match(/^::/gm)?.length, what).toBe(usual.out.match(/^::/gm)?.length);
      else if (format === "junit") expect(structure(out), what).toEqual(structure(usual.out));
      else if (format === "json" || format === "sarif") {
        expect(out, what).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f]/);
        expect(shape(JSON.parse(out)), what).toEqual(shape(JSON.parse(usual.out)));
      }
    }
  }, 120_000);
});

/** The names of what is in it, without the words. */
function shape(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(shape);
  if (typeof value !== "object" || value === null) return typeof value;
  // A setting is known by its label.
  return Object.entries(value).map(([name, inside]) => [
    name,
    name === "settings" ? shape(Object.values(inside as object)) : shape(inside),
  ]);
}

test("all commands that print are here", () => {
  const told = new Set(printed.map(([line]) => line.split(" ")[0]));
  const silent = ["record", "import", "fmt", "explain", "lsp", "seal", "unseal", "reseal", "split", "keys"];
  expect(commands.map(({ name }) => name).filter(name => !told.has(name) && !silent.includes(name))).toEqual([]);
});
