/** Tiny readers of the printed sheets: each finds the keys of the sessions again, group by group, as a person would. */
import { parse } from "csv-parse/sync";
import { parseKeys } from "../../../grammar/parse.ts";
import type { Act } from "../../../shared/keypad/memory.ts";

/** Enter, entries and leave of each session, in order. */
export type Printed = readonly (readonly (readonly string[])[])[];

export function fromMarkdown(text: string): Printed {
  const sessions: string[][][] = [];
  let within = false;
  for (const line of text.split("\n")) {
    if (line.startsWith("## ")) within = line.startsWith("## Session ");
    if (line.startsWith("## Session ")) sessions.push([]);
    if (!within) continue;
    const keys = /^(?:Enter|Leave): (.*)$/.exec(line)?.[1] ?? (/^\| ☐ \| \d+ \|/.test(line) ? cellsOf(line)[3] : undefined);
    if (keys !== undefined) sessions.at(-1)?.push(spansOf(keys));
  }
  return sessions;
}

export function fromText(text: string): Printed {
  const sessions: string[][][] = [];
  let within = false;
  let open: string[] | undefined;
  for (const line of text.split("\n")) {
    if (/^[A-Z ]+( \d+)?$/.test(line)) within = line.startsWith("SESSION ");
    if (line.startsWith("SESSION ")) sessions.push([]);
    const found = /^ {2}(enter|keys|leave) +(.*)$/.exec(line);
    if (within && found) {
      open = (found[2] ?? "").split("  ");
      sessions.at(-1)?.push(open);
    } else if (within && open && /^ {10}\S/.test(line) && !/^ {10}(May|Only|Here|Typing|Do not)/.test(line))
      open.push(...line.trim().split("  "));
    else open = undefined;
  }
  return sessions;
}

export function fromCsv(text: string): Printed {
  const sessions = new Map<string, string[][]>();
  for (const row of csvRows(text)) {
    if (!["enter", "entry", "leave"].includes(row.part ?? "") || !row.keys) continue;
    const session = sessions.get(row.session ?? "") ?? [];
    sessions.set(row.session ?? "", session);
    session.push([...row.keys.replace(/^key /, "").matchAll(/\[[^\]]*\]|\S+/g)].map(([group]) => group));
  }
  return [...sessions.values()];
}

export function fromJson(text: string): Printed {
  return JSON.parse(text).keypads[0].sessions.map((session: { enter: string[]; leave: string[]; entries: { keys: string[] }[] }) =>
    [session.enter, ...session.entries.map(({ keys }) => keys), session.leave].filter(groups => groups.length > 0),
  );
}

/** What a person does who reads one printed group. */
export function actsOf(group: string): readonly Act[] {
  const hand = /^\[(?:(present tag) (.*)|(.*))\]$/.exec(group);
  if (hand) return [hand[1] && hand[2] ? { hand: hand[1], tag: hand[2] } : { hand: hand[3] ?? "" }];
  return parseKeys(group).elements.flatMap(element => {
    if (element.kind !== "keys") throw new Error(`${element.kind} on a sheet`);
    return /^\d+$/.test(element.text) ? [...element.text].map(press => ({ press })) : [{ press: element.text }];
  });
}

export function csvRows(text: string): readonly Record<string, string>[] {
  return parse(text, { columns: true, bom: true });
}

/** Cells of a table row; a bar behind a backslash belongs to its cell. */
export function cellsOf(line: string): readonly string[] {
  return line
    .slice(1, -1)
    .split(/(?<!\\)\|/)
    .map(cell => cell.trim());
}

function spansOf(markdown: string): string[] {
  return [...markdown.matchAll(/(`+) ?(.*?) ?\1(?!`)/g)].map(found => (found[2] ?? "").replaceAll("\\|", "|"));
}
