import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { parse } from "../../../grammar/parse.ts";
import { folderOf, model, mullion } from "./support/mullion.ts";

const site = `use "model.mullion"
site "Alder yard"
holder u1 "Unit 1" code 4829 // ground floor
keypad gate "Lane gate" : tiny {
  installer code 6044
  relay 1 "Foot gate" {
    1 u1
  }
}
`;
const yard = (table: string | Uint8Array) => folderOf({ "yard.mullion": site, "model.mullion": model, "table.csv": table });
const run = (cwd: string, ...more: string[]) => mullion(["import", "table.csv", "-o", "yard.mullion", ...more], { cwd });
const textOf = (cwd: string) => readFileSync(join(cwd, "yard.mullion"), "utf8");

test("holders, codes, tags and places are taken; the same table again changes nothing", () => {
  const cwd = yard(
    "Name,PIN,Fob,Keypad,Door,Slot\nUnit 1,4829,,gate,Foot gate,1\nUnit 2,5591,8061261,Lane gate,Foot gate,2\nUnit 3,7305,,,,\n",
  );
  const first = run(cwd);
  expect([first.err, first.status]).toEqual(["", 0]);
  expect(first.out.split("\n").slice(0, 3)).toEqual([
    "row 2: there already: Unit 1",
    "row 3: guessed: code of Unit 2 (unit-2); tag of Unit 2 (unit-2.tag); slot 2 of Foot gate; the tag of the row has no place of its own",
    "row 4: taken: code of Unit 3 (unit-3)",
  ]);
  const text = textOf(cwd);
  expect(text).toContain("    1 u1\n    2 unit-2\n");
  expect(text).toContain('holder unit-2 "Unit 2"\n  code 5591\n  tag 8061261\nholder unit-3 "Unit 3" code 7305\n');
  expect(text).toContain("code 4829 // ground floor");
  expect(parse(text).problems).toEqual([]);
  const second = run(cwd);
  expect(second.out).toMatch(/0 taken, 0 guessed, 2 there already|nothing changes/);
  expect(textOf(cwd)).toBe(text);
});

test("no code is ever said", () => {
  const cwd = yard("holder,code,slot\nUnit 2,5591,2\nUnit 3,12x4,3\nUnit 4,999,9\nUnit 5,7305,1\n");
  const { out, err, status } = run(cwd);
  expect(status).toBe(1);
  expect(["5591", "12x4", "999", "7305", "4829"].filter(code => (out + err).includes(code))).toEqual([]);
  expect(out).toContain("row 3: refused: the code is not all digits\n");
});

describe("what a spreadsheet does to numbers", () => {
  test.each([
    ["semicolons and a byte order mark", "\ufeffHolder;Code;Slot\nUnit 2;5591;2\n", "2 unit-2"],
    ["Windows line ends and quotes", '"holder","code","slot"\r\n"Unit 2, yard","5591","2"\r\n', "2 unit-2-yard"],
    ["tabs", "holder\tcode\tslot\nUnit 2\t5591\t2\n", "2 unit-2"],
    ["a number made of the slot", "holder,code,slot\nUnit 2,5591,2.0\n", "2 unit-2"],
  ])("%s", (_, table, line) => {
    const cwd = yard(table);
    expect(run(cwd).status).toBe(0);
    expect(textOf(cwd)).toContain(`    ${line}\n`);
  });

  test("a lost zero is put back where most codes are longer, and that is said", () => {
    const cwd = yard("holder,code\nUnit 2,5591\nUnit 3,7305\nUnit 4,427\n");
    expect(run(cwd).out).toContain("row 4: guessed: code of Unit 4 (unit-4); the code had lost a zero in front; most codes have 4 digits");
    expect(textOf(cwd)).toContain('holder unit-4 "Unit 4" code 0427');
  });

  test("tags in every spelling, and of eight digits how they were taken", () => {
    const cwd = yard('holder,tag\nUnit 2,"123,00334"\nUnit 3,7B014F\nUnit 4,red dot\nUnit 5,21302000\nUnit 6,11302000\nUnit 7,8.06E+06\n');
    const { out } = run(cwd);
    const text = textOf(cwd);
    for (const tag of ["tag 123,00334", "tag 0x7B014F", 'tag "red dot"', "tag 213,02000", "tag 11302000"]) expect(text).toContain(tag);
    expect(out).toContain("row 5: guessed: tag of Unit 5 (unit-5); the tag's eight digits were taken as facility and number run together");
    expect(out).toContain("were they facility and number run together, it would be 113,02000");
    expect(out).toContain("row 7: refused: a spreadsheet has rounded the tag's number to a power of ten");
  });
});

test("a place that is taken, a slot that is not there, a door that nobody knows: refused, and the holder is kept", () => {
  const cwd = yard("holder,code,relay,slot\nUnit 2,5591,Foot gate,1\nUnit 3,7305,Foot gate,9\nUnit 4,2648,Back door,2\n");
  const { out, status } = run(cwd);
  expect(status).toBe(1);
  expect(out).toContain("row 2: taken in part: code of Unit 2 (unit-2); refused: slot 1 of Foot gate is taken already, by u1");
  expect(out).toContain("3 rows: 0 taken, 3 in part, 0 guessed, 0 there already, 0 refused; written to yard.mullion");
  expect(out).toContain("refused: tiny has no slot 9");
  expect(out).toContain("refused: there is no relay of Lane gate called Back door");
  expect(textOf(cwd)).toContain('holder unit-4 "Unit 4" code 2648');
});

test("a place in a site without keypads is refused, and the code is taken; once it is there the row is refused", () => {
  const cwd = folderOf({ "table.csv": "holder,code,slot\nUnit 2,5591,1\n" });
  const said = () => mullion(["import", "table.csv", "-o", "new.mullion"], { cwd }).out.split("\n")[0];
  expect(said()).toBe("row 2: taken in part: code of Unit 2 (unit-2); refused: its place, since the site has no keypad yet");
  expect(said()).toBe("row 2: refused: its place, since the site has no keypad yet");
});

test("columns that are not used are told, and none of them by what may be a code", () => {
  const cwd = yard("holder,code,E-mail,floor  no,7305\nUnit 2,5591,a@example.org,2,x\n");
  expect(run(cwd).out).toContain("not used: E-mail, floor no, column 5\n");
});

test("a table without headings loses no row", () => {
  const cwd = yard("Unit 2,5591\nUnit 3,7305\n");
  const { err, status } = run(cwd, "--map", "holder=1", "--map", "code=2");
  expect([status, err]).toEqual([
    2,
    "mullion: table.csv: the first row has a code where the heading should be; put a row of headings above it\n",
  ]);
  expect(textOf(cwd)).toBe(site);
});

test("a new file, columns that are named, names that no id can be made of", () => {
  const cwd = folderOf({ "table.csv": "A,B\nΞύλο,5591\n東,7305\n" });
  const { status } = mullion(["import", "table.csv", "-o", "new.mullion", "--map", "holder=A", "--map", "code=2"], { cwd });
  expect(status).toBe(0);
  const text = readFileSync(join(cwd, "new.mullion"), "utf8");
  expect(text).toBe('holder holder "Ξύλο" code 5591\nholder holder-2 "東" code 7305\n');
  expect(mullion(["check", "new.mullion"], { cwd }).status).toBe(0);
});

test("what is wrong is said, and nothing is written", () => {
  const cwd = folderOf({ "table.csv": "first,second\nx,y\n" });
  const { err, status } = mullion(["import", "table.csv", "-o", "new.mullion"], { cwd });
  expect([status, err]).toEqual([2, "mullion: table.csv: no heading says who it is about; name the column: --map holder=HEADING\n"]);
  expect(mullion(["import", "nowhere.csv", "-o", "new.mullion"], { cwd }).err).toBe("mullion: no such file: nowhere.csv\n");
  expect(mullion(["import", "table.csv"], { cwd }).status).toBe(2);
  expect(existsSync(join(cwd, "new.mullion"))).toBe(false);
});

test("with --dry-run it is said and not done", () => {
  const cwd = yard("holder,code,slot\nUnit 2,5591,2\n");
  expect(run(cwd, "--dry-run").out).toContain("nothing was written");
  expect(textOf(cwd)).toBe(site);
});

test("columns named in one go, a file beside the table, and letters with marks in an id", () => {
  const cwd = folderOf({ "register.csv": "Who,Key\nMöwe & Café,5591\n" });
  const { status, out } = mullion(["import", "register.csv", "--map", "holder=1,code=Key"], { cwd });
  expect([status, out.split("; ").at(-1)]).toEqual([0, "written to register.mullion\n"]);
  expect(readFileSync(join(cwd, "register.mullion"), "utf8")).toContain('holder mowe-cafe "Möwe & Café"');
});
