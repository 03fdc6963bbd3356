/** Texts made from the grammar: mostly in order, with names that mostly lead somewhere, in any layout. */
import type { Random } from "../random.ts";

const models = ["dunlin-3", "plover-1", "whimbrel-2", "avocet-2", "knot-4", "turnstone-1", "own"];
const holders = ["u1", "u2", "mgr", "cln", "code", "relay", "holder", "a-b_c"];
const keypads = ["gate", "yard", "site"];
const labels = [
  "Foot gate",
  "Unit 1",
  "",
  "“x”",
  "é 漢 قارب",
  'a \\"b\\"',
  "\\\\",
  "🏺",
  "e\u0301",
  "=1+1",
  "<b>",
  "a // b",
  "{slot}",
  "|",
];
const comments = ["// why", "// allow near-codes: one household", "// allow slot-clash:", "//", "// {", '// "', "//- x", "// 漢"];

/** How a text is laid out: what stands between two words, and between two facts. */
interface Style {
  readonly random: Random;
  readonly newline: string;
  readonly tidy: boolean;
}

/** One to twelve declarations. */
export function generated(random: Random): string {
  const style: Style = { random, newline: random.oneIn(4) ? random.one(["\r\n", "\r"]) : "\n", tidy: !random.oneIn(3) };
  const parts: string[] = [];
  if (!random.oneIn(4)) parts.push(`use "../models/${random.one(models)}.mullion"`);
  for (let left = random.between(1, 12); left > 0; left--) parts.push(random.one(kinds)(style));
  const text = parts.flatMap(part => (random.oneIn(6) ? [random.one(comments), part] : [part])).join(`${style.newline}${style.newline}`);
  return random.oneIn(8) ? `\ufeff${text}` : text;
}

function digits(random: Random, length = random.between(0, 8) || 4): string {
  return Array.from({ length }, () => random.below(10)).join("");
}

function str(random: Random): string {
  return `"${random.one(labels)}"`;
}

function day(random: Random): string {
  return `20${random.between(24, 29)}-${String(random.between(1, 12)).padStart(2, "0")}-${String(random.between(1, 28)).padStart(2, "0")}`;
}

/** Up to `most` of the parts, each drawn anew. */
function some(random: Random, most: number, part: () => string): string[] {
  return Array.from({ length: random.between(0, most) }, part);
}

/** Facts one to a line or, where the style is untidy, anyhow. */
function block({ random, newline, tidy }: Style, head: string, facts: readonly string[], depth = 1): string {
  const gap = () => (tidy || random.oneIn(2) ? newline + " ".repeat(tidy ? depth * 2 : random.below(7)) : " ".repeat(random.between(1, 3)));
  const said = facts.map(fact => gap() + fact + (random.oneIn(10) ? ` ${random.one(comments)}${newline}` : "")).join("");
  return `${head} {${said}${gap()}}`;
}

/** Facts behind a head that has no braces. */
function trail({ random, newline, tidy }: Style, head: string, facts: readonly string[]): string {
  return head + facts.map(fact => (tidy && facts.length > 1 ? `${newline}  ` : random.one([" ", newline, `${newline}  `])) + fact).join("");
}

function tagNumber(random: Random): string {
  return random.one([digits(random, 7), `${digits(random, 3)},${digits(random, 5)}`, "0x7B014E", "0x7B014F", "8061262"]);
}

function holder(style: Style): string {
  const { random } = style;
  const until = () => (random.oneIn(5) ? ` until ${day(random)}` : "");
  const fact = () =>
    random.one([
      `code ${digits(random)}${until()}`,
      `code ${random.one(["yard", "gate", "tag"])} ${digits(random, 5)}${until()}`,
      `tag ${tagNumber(random)}${random.oneIn(2) ? ` ${str(random)}` : ""}${random.oneIn(6) ? " lost" : ""}${until()}`,
      `tag ${random.one(["bike", "van"])} ${tagNumber(random)}`,
      `tag ${str(random)}`,
      `until ${day(random)}`,
      `note ${str(random)}`,
    ]);
  return trail(style, `holder ${random.one(holders)} ${str(random)}`, some(random, 4, fact));
}

function held(random: Random): string {
  return random.one(holders) + random.one(["", "", ".tag", ".code", ".yard", ".bike", ".van"]);
}

function slot(random: Random): string {
  return random.one([String(random.below(60)).padStart(2, "0"), digits(random, random.between(1, 3)), "001", "0", "99", ""]);
}

function relay(style: Style, entry: () => string): string {
  const { random } = style;
  const numbers = random.one(["1", "2", "3", "1+2", "4", "1+1", "01"]);
  const label = random.oneIn(3) ? "" : ` ${str(random)}`;
  if (random.oneIn(6)) return `relay ${numbers}${label} ${random.one(["spare", "no codes"])}`;
  const release = random.oneIn(2) ? ` release ${random.one(["5s", "1s", "toggle", "0s", "100s"])}` : "";
  return block(style, `relay ${numbers}${label}${release}`, some(random, 6, entry), 2);
}

function keypad(style: Style): string {
  const { random } = style;
  const entry = () => {
    const pair = random.oneIn(6) ? ` ${random.one(["or", "with"])} ${held(random)}` : "";
    return `${slot(random)} ${held(random)}${pair}`.trim();
  };
  const fact = () =>
    random.one([
      () => `installer code ${random.one([digits(random), held(random), "firm.gate"])}`,
      () => `all-relay ${random.oneIn(2) ? `${digits(random, 3)} ` : ""}code ${held(random)}`,
      () => `code length ${random.between(0, 9)}`,
      () => `setting ${random.one(['"key light"', str(random)])} ${random.below(4)}`,
      () => `note ${str(random)}`,
      () => relay(style, entry),
      () => relay(style, entry),
      () => relay(style, entry),
    ])();
  return block(style, `keypad ${random.one(keypads)} ${str(random)} : ${random.one(models)}`, some(random, 6, fact));
}

function fittedFacts(style: Style): string[] {
  const { random } = style;
  const code = () => `code ${digits(random)}`;
  const tag = () => `tag ${random.one([tagNumber(random), `"red dot"`, `${tagNumber(random)} ${str(random)}`])}`;
  const entry = () =>
    `${slot(random)} ${random.one([code(), code(), tag(), "unknown", `${code()} or ${tag()}`, `${code()} with ${tag()}`])}`.trim();
  const fact = () =>
    random.one([
      () => `installer code ${digits(random)}`,
      () => `all-relay ${random.oneIn(3) ? `${digits(random, 3)} ` : ""}code ${digits(random)}`,
      () => `code length ${random.between(3, 8)}`,
      () => `setting "key light" ${random.below(4)}`,
      () => relay(style, entry),
      () => relay(style, entry),
    ])();
  return some(random, 5, fact);
}

function fitted(style: Style): string {
  const { random } = style;
  const head = `fitted ${random.one(keypads)}`;
  if (random.oneIn(6)) return `${head} unknown`;
  return block(style, `${head} ${day(random)}${random.oneIn(4) ? " partly" : ""}`, [`model ${random.one(models)}`, ...fittedFacts(style)]);
}

const keysOf = [
  ...[
    "{installer}",
    "{code}",
    "{relay}",
    "{relay-number}",
    "{slot}",
    "{seconds:2}",
    "{seconds}",
    "{digits}",
    "{value:1}",
    "{tag:10}",
    "{tag:3+5}",
  ],
  ...["7", "81", "0042", "OK", "B", "*", "#", "[present tag]", "[hold the exit button]", "[wait 3s]", "BELL"],
];

function model(style: Style): string {
  const { random } = style;
  const keys = () => Array.from({ length: random.between(0, 5) }, () => random.one(keysOf)).join(" ");
  const shows = () => (random.oneIn(3) ? "" : ` shows ${str(random)}`);
  const facts = [
    () => "keys 0..9 B C OK",
    () => `relays ${random.one(["1 = 4, 2 = 5, 3 = 6", "1 = 4, 2 = 5, 1+2 = 7", "1 = 1", "1 = 4, 2 = 4"])}`,
    () =>
      `slots ${random.one(["00..59 per relay", "001..500 shared", "500 unnumbered", "one per relay", "001..099 codes, 100..499 tags shared, 990..999 all-relay", "1..3 per relay holds code or tag"])}`,
    () => `codes ${random.one(["4 digits", "5 | 7 digits", "4..8 digits", "4..6 digits installer 6..8 digits", "8..4 digits"])}`,
    () => `length ${random.one(["follows installer code", "set by entry", "free"])}`,
    () => `rewrite ${random.one(["replaces", "refused"])}`,
    () => `twins ${random.one(["refused", "first fires", "all fire"])}`,
    () => `relength ${random.one(["clears", "keeps what was stored"])}`,
    () => `release 1s..99s${random.oneIn(2) ? ", toggle = 00" : ""}`,
    () => `${random.one(["settle", "lapse"])} ${random.below(40)}s`,
    () => `lockout ${random.one(["none", "5 tries 60s"])}`,
    () => `refused shows ${str(random)}`,
    () => "cancel C",
    () => `reset ${random.one(["wipes everything", "installer code"])} ${str(random)}`,
    () => `setting "key light" 0..2 factory 1 81 {value:1} OK`,
    () => `tags ${random.one(["24", "32", "56", "0"])} bits`,
    () => "session one entry",
    () => `listens ${random.one(["from the first key", "to the last keys"])}`,
    () => `acts ${random.one(["at once", "after a pause"])}`,
    () => "draws 60 mA",
    () => "contact 2 A 30 V",
    () => block(style, "factory", [`installer code ${digits(random)}`, ...fittedFacts(style)], 2),
    ...[
      "enter",
      "leave",
      "put code",
      "put tag",
      "clear slot",
      "set installer",
      "set all-relay",
      "clear all-relay",
      "set release",
      "clear all",
    ].map(name => () => `${name} ${keys()}${shows()}`),
    ...["set length", "clear code", "clear tag", "open code", "open all-relay", "open tag", "open both"].map(
      name => () => `${name} ${keys()}`,
    ),
  ];
  const said = facts.filter(() => !random.oneIn(4)).map(fact => fact());
  return block(style, `model ${random.one(["own", "own", "dunlin-3"])} ${str(random)}`, random.oneIn(3) ? random.shuffled(said) : said);
}

function policy(style: Style): string {
  const { random } = style;
  const rule = () =>
    random.one([
      `weak codes ${random.one(["warn", "refuse", "allow"])}`,
      `near codes ${random.below(9)} digits`,
      `guess odds 1 in ${random.one(["1000", "1", "0", "99999999"])}`,
      "near codes allow",
    ]);
  return block(style, "policy", some(random, 3, rule));
}

function door(style: Style): string {
  const { random } = style;
  const facts = [
    `lock ${random.one(["strike", "magnet", "bolt", "motor lock", "start contact"])} 12 V ${random.one(["350 mA", "1.5 A inrush", "AC"])} ${random.one(["fail-secure", "fail-safe", "stays"])}`,
    `contact ${random.one(["closes to open", "opens to open"])}`,
    `cable ${random.one(["28 m 0.75 mm2", "28 m 22 AWG", "0 m 0 mm2", '5 m 1 mm2 "x"'])}`,
    `exit ${random.one(["bar", "lever", "button", "none"])}`,
    `route ${random.one(["escape", "fire door", "none"])}`,
    "release on alarm",
    "near people",
  ];
  return block(
    style,
    `door ${str(random)}`,
    facts.filter(() => random.oneIn(2)),
  );
}

function supply(style: Style): string {
  const { random } = style;
  const facts = [`battery 12 V 7 Ah for ${random.below(9)} h`, `feeds ${str(random)}, keypad gate`, `note ${str(random)}`];
  return block(
    style,
    `supply ${random.one(["cupboard", "loft"])} ${str(random)} 13.8 V 3 A`,
    facts.filter(() => random.oneIn(2)),
  );
}

function site(style: Style): string {
  const { random } = style;
  const fact = () => `${random.one(["address", "contact", "note"])} ${str(random)}`;
  return random.oneIn(3) ? `site ${str(random)}` : block(style, `site ${str(random)}`, some(random, 3, fact));
}

const kinds: readonly ((style: Style) => string)[] = [
  site,
  holder,
  holder,
  holder,
  holder,
  keypad,
  keypad,
  fitted,
  model,
  policy,
  door,
  supply,
];
