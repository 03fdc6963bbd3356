/** Which column of a table holds what: by its heading, or as it is said. */

const columnNames = ["holder", "code", "tag", "keypad", "relay", "slot"] as const;
export type ColumnName = (typeof columnNames)[number];
export type Columns = Partial<Record<ColumnName, number>>;

/** Headings that people give such columns; compared without case, blanks and punctuation. Common practice, no source. */
const headings: Readonly<Record<ColumnName, readonly string[]>> = {
  holder: ["holder", "name", "unit", "flat", "tenant", "person", "user", "who", "company"],
  code: ["code", "pin", "pincode", "doorcode", "accesscode"],
  tag: ["tag", "fob", "card", "tagnumber", "fobnumber", "cardnumber", "token"],
  keypad: ["keypad", "device", "panel", "unitid", "entrance"],
  relay: ["relay", "door", "gate", "output", "opens"],
  slot: ["slot", "place", "position", "location", "memory", "slotnumber", "no", "nr", "number"],
};

/** A comma before the name of another column; a heading may have commas of its own. */
const nextColumn = new RegExp(`,\\s*(?=(?:${columnNames.join("|")})=)`);

const plain = (text: string) => text.toLowerCase().replace(/[^\p{L}\p{N}]/gu, "");

/**
 * @param map `holder=Name`, several with commas between them: a column by its heading, or by its number from 1; wins over what
 * the headings say.
 * @returns the columns found, from 0, or what is wrong in words
 */
export function columnsOf(header: readonly string[], map: readonly string[]): Columns | { readonly wrong: string } {
  const columns: Columns = {};
  for (const name of columnNames) {
    const at = header.findIndex(heading => headings[name].includes(plain(heading)));
    if (at >= 0 && !Object.values(columns).includes(at)) columns[name] = at;
  }
  for (const said of map.flatMap(each => each.split(nextColumn))) {
    const [name = "", heading = ""] = said.split(/=(.*)/s);
    if (!(columnNames as readonly string[]).includes(name))
      return { wrong: `no column is called ${name}; there are ${columnNames.join(", ")}` };
    const at = /^\d+$/.test(heading) ? Number(heading) - 1 : header.findIndex(each => plain(each) === plain(heading));
    if (at < 0 || at >= header.length) return { wrong: `the table has no column ${heading}` };
    columns[name as ColumnName] = at;
  }
  if (columns.code !== undefined && /^'?\d{3,}$/.test(header[columns.code]?.trim() ?? ""))
    return { wrong: "the first row has a code where the heading should be; put a row of headings above it" };
  if (columns.holder === undefined) return { wrong: `no heading says who it is about; name the column: --map holder=HEADING` };
  if (columns.code === undefined && columns.tag === undefined)
    return { wrong: "no heading says code or tag; name the column: --map code=HEADING" };
  return columns;
}

/** The headings of what is not read, for the report. One with so many digits may be a code, and is told by its number. */
export function unreadColumns(header: readonly string[], columns: Columns): readonly string[] {
  const read = new Set(Object.values(columns));
  return header.flatMap((heading, at) => {
    if (read.has(at) || heading.trim() === "") return [];
    return [/\p{Nd}{3}/u.test(heading) ? `column ${at + 1}` : heading.trim().replace(/\s+/g, " ")];
  });
}
