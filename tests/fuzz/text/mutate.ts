/** A text after something happened to it: to its bytes, its characters, its words or its lines. */
import { keywords } from "../../../grammar/tokens.ts";
import type { Random } from "../random.ts";
import { corpus } from "./corpus.ts";

const lines = [...new Set(corpus.flatMap(({ text }) => text.split("\n")))].filter(line => line.trim() !== "");

/** What breaks things: ends of lines, quotes, marks of a conflict, halves of characters, what no keyboard types. */
const nasty = [
  ...["\n", "\r", "\r\n", "\n\n", "\t", " ", "\u00a0", "\u2028", "\u2029", "\u0085", "\ufeff", "\u200b", "\v", "\f", "\0", "\u001b[31m"],
  ...["\ud83d", "\ude00", "\ud83d\ude00", "\ud800\ud800", "e\u0301", "\u202e", "\u2066", "İ", "ß", "漢", "قارب", "\u0000\u0000"],
  ...['"', '\\"', "\\", "“", "”", "'", "`", "{", "}", "}}", "{{", "[", "]", "(", ")", "<", ">", ":", "::", "..", "...", ".", "+", "="],
  ...[",", "|", "*", "#", "%", "-", "--", "/", "//", "/*", "*/", "//!", "// allow ", "// allow near-codes: x", "// ^^^ syntax"],
  ...["<<<<<<< ours\n", "=======\n", ">>>>>>> theirs\n", "||||||| base\n", "\n<<<<<<< a\n", "\n=======\n", "\n>>>>>>> b\n"],
  ...[
    "0",
    "00",
    "01",
    "5s",
    "0s",
    "48291",
    "999999999999999999999",
    "-1",
    "1e9",
    "0x",
    "0xFFFFFFFFFFFFFFFFFF",
    "123,00334",
    ",,",
    "1..",
    "..9",
  ],
  ...[
    "2027-03-31",
    "2027-02-30",
    "0000-00-00",
    "12 V",
    "0.75",
    "1+2",
    "1 + 2",
    "1=4",
    "{slot}",
    "{tag:3+5}",
    "{code:}",
    "{:}",
    "[present tag]",
  ],
  ...[
    "u1",
    "u1.tag",
    "u1.",
    ".tag",
    "u1 or u2",
    "u1 with u1.tag",
    "constructor",
    "__proto__",
    "toString",
    "hasOwnProperty",
    "NaN",
    "undefined",
  ],
];

/** A text of the corpus, changed in one to five ways. */
export function mutated(text: string, random: Random): string {
  let now = text;
  for (let left = random.between(1, random.oneIn(3) ? 5 : 2); left > 0; left--) now = random.one(ways)(now, random);
  return now;
}

type Way = (text: string, random: Random) => string;

/** `text` with `by` in place of the stretch from `start` to `end`. */
function splice(text: string, start: number, end: number, by: string): string {
  return text.slice(0, start) + by + text.slice(end);
}

function changeBytes(text: string, random: Random): string {
  const bytes = new TextEncoder().encode(text);
  for (let left = random.between(1, 4); left > 0 && bytes.length > 0; left--) {
    const at = random.below(bytes.length);
    bytes[at] = random.oneIn(2) ? random.below(256) : (bytes[at] ?? 0) ^ (1 << random.below(8));
  }
  return new TextDecoder("utf-8", { ignoreBOM: true }).decode(bytes);
}

function insertAnywhere(text: string, random: Random): string {
  const at = random.below(text.length + 1);
  return splice(text, at, at, random.one(nasty));
}

function replaceStretch(text: string, random: Random): string {
  const at = random.below(text.length + 1);
  return splice(text, at, at + random.below(12), random.oneIn(2) ? "" : random.one(nasty));
}

function anyUnit(text: string, random: Random): string {
  const at = random.below(text.length + 1);
  return splice(text, at, at + random.below(2), String.fromCharCode(random.below(random.oneIn(2) ? 128 : 0x10000)));
}

function cut(text: string, random: Random): string {
  const at = random.below(text.length + 1);
  return random.oneIn(2) ? text.slice(0, at) : text.slice(at);
}

function repeatStretch(text: string, random: Random): string {
  const at = random.below(text.length + 1);
  const end = Math.min(text.length, at + random.below(random.oneIn(4) ? 400 : 40));
  return splice(text, at, at, text.slice(at, end).repeat(random.between(1, random.oneIn(20) ? 40 : 3)));
}

const word = /"[^"\n]*"|[\w-]+|\s+|./gsu;

/** What a word is changed for: one of the language, one of another place, something nasty, nothing. */
function changeWords(text: string, random: Random): string {
  const words = text.match(word) ?? [];
  if (words.length === 0) return text;
  for (let left = random.between(1, 4); left > 0; left--) {
    const at = random.below(words.length);
    const other = random.below(words.length);
    switch (random.below(6)) {
      case 0:
        words[at] = "";
        break;
      case 1:
        words[at] = ` ${random.one(keywords)} `;
        break;
      case 2:
        words[at] = words[other] as string;
        break;
      case 3:
        [words[at], words[other]] = [words[other] as string, words[at] as string];
        break;
      case 4:
        words[at] = random.one(nasty);
        break;
      default:
        words[at] = (words[at] as string).repeat(2);
    }
  }
  return words.join("");
}

/** Lines taken out, doubled, moved, set in another way, or brought in from any other text. */
function changeLines(text: string, random: Random): string {
  const all = text.split("\n");
  for (let left = random.between(1, 3); left > 0; left--) {
    const at = random.below(all.length);
    switch (random.below(6)) {
      case 0:
        all.splice(at, random.between(1, 4));
        break;
      case 1:
        all.splice(at, 0, all[random.below(all.length)] ?? "");
        break;
      case 2:
        all.splice(at, 0, random.one(lines));
        break;
      case 3:
        all.splice(random.below(all.length), 0, ...all.splice(at, random.between(1, 6)));
        break;
      case 4:
        all[at] = " ".repeat(random.below(8)) + (all[at] ?? "").trimStart();
        break;
      default:
        all.splice(at, 2, `${all[at] ?? ""} ${all[at + 1] ?? ""}`);
    }
  }
  return all.join("\n");
}

/** Two sides of a conflict, whole or with a mark missing. */
function conflict(text: string, random: Random): string {
  const all = text.split("\n");
  const at = random.below(all.length);
  const own = all.slice(at, at + random.between(0, 5));
  const marks = ["<<<<<<< ours", ...own, random.oneIn(3) ? "||||||| base" : "", "=======", random.one(lines), ">>>>>>> theirs"];
  if (random.oneIn(4)) marks.splice(random.below(marks.length), 1);
  all.splice(at, own.length, ...marks);
  return all.join("\n");
}

function lineEnds(text: string, random: Random): string {
  const ends = random.one([["\r\n"], ["\r"], ["\n", "\r\n"], ["\n", "\r", "\r\n"], ["\u2028", "\n"], ["\n\r"]]);
  const marked = random.oneIn(4) ? `\ufeff${text}` : text;
  return marked.replaceAll("\n", () => random.one(ends));
}

function onOneLine(text: string, random: Random): string {
  const without = random.oneIn(2) ? text.replace(/\/\/.*/g, "") : text;
  return without.replaceAll("\n", random.one([" ", "", "\t"]));
}

/** Two texts, one behind the other or one within the other. */
function mixed(text: string, random: Random): string {
  const { text: other } = random.one(corpus);
  const at = random.oneIn(2) ? text.length : random.below(text.length + 1);
  const from = random.oneIn(2) ? 0 : random.below(other.length);
  return splice(text, at, at, other.slice(from, from + random.below(2000)));
}

const ways: readonly Way[] = [
  changeBytes,
  insertAnywhere,
  insertAnywhere,
  replaceStretch,
  replaceStretch,
  anyUnit,
  cut,
  repeatStretch,
  changeWords,
  changeWords,
  changeWords,
  changeLines,
  changeLines,
  changeLines,
  conflict,
  lineEnds,
  onOneLine,
  mixed,
];
