/** Codes that are guessed first: why a code is weak, in the trade's words. Pure; lengths 4 to 8, shorter and longer are judged by the same shapes. */

/**
 * The twenty most frequent four-digit codes of the only large published count, about 3.4 million four-digit strings, most frequent first.
 * Source: DataGenetics, "PIN analysis", 3 September 2012, table of the top twenty (26.83 % of all).
 */
export const publishedTopTwenty: readonly string[] = [
  "1234",
  "1111",
  "0000",
  "1212",
  "7777",
  "1004",
  "2000",
  "4444",
  "2222",
  "6969",
  "9999",
  "3333",
  "5555",
  "6666",
  "1122",
  "1313",
  "8888",
  "4321",
  "2001",
  "1010",
];

/** Straight lines over the 3 × 4 pad of ITU-T E.161 (1 2 3 / 4 5 6 / 7 8 9 / – 0 –), each read both ways. */
const padLines: ReadonlySet<string> = new Set(
  ["123", "456", "789", "147", "258", "369", "580", "159", "357", "2580"].flatMap(line => [line, reversed(line)]),
);
/** Two keys that begin such a line. */
const padBeginnings: ReadonlySet<string> = new Set([...padLines].map(line => line.slice(0, 2)));
/** The lines of three, by their number: quicker to ask than text. */
const threeInLine: readonly boolean[] = Array.from({ length: 1_000 }, (_, line) => padLines.has(String(line).padStart(3, "0")));
/** The column that is longer than three keys, and the corners in any order. */
const corners = "1379";

const weakKinds = ["frequent", "one digit", "run", "year", "date", "mirrored", "repeated", "blocks", "pad", "round"] as const;
export type WeakKind = (typeof weakKinds)[number];

/** What is said of each kind: completes "… is easily guessed: it …". Never holds digits. */
export const weakWords: Readonly<Record<WeakKind, string>> = {
  frequent: "is among the twenty most used codes of a published count",
  "one digit": "is one digit over and over, with one other at most",
  run: "counts up or down in even steps",
  year: "reads as a year, or as two",
  date: "reads as a date",
  mirrored: "reads the same backwards",
  repeated: "is a shorter group repeated",
  blocks: "is made of doubled digits or of groups that only move along",
  pad: "follows lines or corners of the pad",
  round: "is a round number",
};

/**
 * Why a code is weak.
 *
 * @param code digits; leading zeros count.
 * @returns the first kind that fits, most telling first, or undefined where none does.
 */
export function weakness(code: string): WeakKind | undefined {
  if (code.length < 2) return undefined;
  if (oneDigit(code)) return "one digit";
  if (evenSteps(code)) return "run";
  if (code.length === 4 && publishedTopTwenty.includes(code)) return "frequent";
  if (/^((19|20)\d\d){1,2}$/.test(code)) return "year";
  if (readsAsDate(code)) return "date";
  if (readsTheSameBackwards(code)) return "mirrored";
  if (repeatedGroup(code)) return "repeated";
  if (followsPad(code)) return "pad";
  if (blocks(code)) return "blocks";
  if (/^(\d0{3,}|0{3,}\d)$/.test(code)) return "round";
  return undefined;
}

function reversed(text: string): string {
  return [...text].reverse().join("");
}

function readsTheSameBackwards(code: string): boolean {
  for (let i = 0; i < code.length >> 1; i++) if (code.charCodeAt(i) !== code.charCodeAt(code.length - 1 - i)) return false;
  return true;
}

/** All one digit; from five digits on also all but one. (At four digits "all but one" would be 360 codes of 10 000, more than the rule is worth.) */
function oneDigit(code: string): boolean {
  // Whichever it is, it stands twice among the first three.
  const digit = code[0] === code[1] || code[0] === code[2] ? code[0] : code[1];
  let count = 0;
  for (let i = 0; i < code.length; i++) if (code[i] === digit) count++;
  return count === code.length || (code.length >= 5 && count === code.length - 1);
}

/**
 * 1234, 8765, 7890, 2468: steps of one or of two, round the corner from 9 to 0 too (by twos from five digits on: 24680). From six digits on a run
 * with one more digit before or behind it: 123450, 234561, 012349. (At five digits that would be 500 codes of 100 000.)
 */
function evenSteps(code: string): boolean {
  const { length } = code;
  if (isRun(code, 0, length, length >= 5)) return true;
  return length >= 6 && isRun(code, 1, length - 1, false) && (isRun(code, 0, length - 1, false) || isRun(code, 1, length, false));
}

function isRun(code: string, from: number, end: number, twosTurn: boolean): boolean {
  const step = digitAt(code, from + 1) - digitAt(code, from);
  const turn = (step + 10) % 10;
  const turns = turn === 1 || turn === 9 || (twosTurn && (turn === 2 || turn === 8));
  if (Math.abs(step) > 2 && !turns) return false;
  for (let i = from + 2; i < end; i++) {
    const moved = digitAt(code, i) - digitAt(code, i - 1);
    if (moved !== step && !(turns && (moved + 10) % 10 === turn)) return false;
  }
  return true;
}

const monthDays = [31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

function dayOfMonth(month: string, day: string): boolean {
  const days = monthDays[Number(month) - 1];
  return days !== undefined && Number(day) >= 1 && Number(day) <= days;
}

/**
 * Day-month and month-day (four digits); with a two-digit year before or behind, or a month with a year of 1900 to 2099 (six); day, month and such a year (eight).
 * Shorter ways of writing a date (one-digit days or months) are left out: they would take in most of all codes.
 */
function readsAsDate(code: string): boolean {
  const either = (text: string) => dayOfMonth(text.slice(0, 2), text.slice(2, 4)) || dayOfMonth(text.slice(2, 4), text.slice(0, 2));
  switch (code.length) {
    case 4:
      return either(code);
    case 6:
      return (
        either(code.slice(0, 4)) ||
        dayOfMonth(code.slice(2, 4), code.slice(4, 6)) ||
        /^((19|20)\d\d(0[1-9]|1[0-2])|(0[1-9]|1[0-2])(19|20)\d\d)$/.test(code)
      );
    case 8:
      return (/^\d{4}(19|20)/.test(code) && either(code.slice(0, 4))) || (/^(19|20)/.test(code) && either(code.slice(4, 8)));
    default:
      return false;
  }
}

/**
 * 1212, 123123, 12121: a group of at most half the length, over and over, the last one cut short where it must be; of seven digits
 * the group may have four, 1234123. (At five digits a group of three would be 1 000 codes of 100 000.)
 */
function repeatedGroup(code: string): boolean {
  const longest = code.length < 7 ? code.length / 2 : Math.ceil(code.length / 2);
  for (let group = 1; group <= longest; group++) {
    if (code[group] === code[0] && everyDigit(code, i => i % group)) return true;
  }
  return false;
}

/** Every digit is the same as another one, told by its index. */
function everyDigit(code: string, sameAs: (index: number) => number): boolean {
  for (let i = 0; i < code.length; i++) if (code.charCodeAt(i) !== code.charCodeAt(sameAs(i))) return false;
  return true;
}

/**
 * 1122, 555666: equal blocks of one digit each; where the length is odd with one digit more before or behind them, 11223, 1112223. From six digits on, pairs that all
 * move by the same step: 124578 (both digits by three), 102030 (one digit by one).
 * Six digits: the blocks are 1 100 codes of a million, the moving pairs 1 300. Five digits: 1 900 of 100 000.
 */
function blocks(code: string): boolean {
  const odd = code.length % 2;
  if (equalBlocks(code, odd, code.length) || (odd === 1 && equalBlocks(code, 0, code.length - 1))) return true;
  if (code.length < 6 || code.length % 2 !== 0) return false;
  const move = (at: number, pair: number) => (digitAt(code, pair * 2 + at) - digitAt(code, pair * 2 - 2 + at) + 10) % 10;
  const [left, right] = [move(0, 1), move(1, 1)];
  const even = left === right || (left === 0 && (right === 1 || right === 9)) || (right === 0 && (left === 1 || left === 9));
  if (!even) return false;
  for (let pair = 2; pair < code.length / 2; pair++) if (move(0, pair) !== left || move(1, pair) !== right) return false;
  return true;
}

function equalBlocks(code: string, from: number, end: number): boolean {
  const length = end - from;
  for (let size = 2; size <= length / 2 && code[from + 1] === code[from]; size++) {
    if (length % size !== 0) continue;
    let i = from;
    while (i < end && code[i] === code[i - ((i - from) % size)]) i++;
    if (i === end) return true;
  }
  return false;
}

/**
 * 2580, 1379 in any order, 147258: one straight line, the four corners, or from five digits on lines of three or four after each other. Each begins on any key, or goes on
 * from the key where the one before it ended, 14789, 1236987; a last one may be cut short by one.
 */
function followsPad(code: string): boolean {
  if (padLines.has(code)) return true;
  if (code.length === 4) return [...corners].every(key => code.includes(key));
  if (code.length < 5 || ![0, 1, 2].some(start => isLine(code, start))) return false;
  return followsLines(code) || followsLines(reversed(code));
}

/** Whether the three keys from `start` are a line: without one of these near its beginning no code is made of lines. */
function isLine(code: string, start: number): boolean {
  return threeInLine[digitAt(code, start) * 100 + digitAt(code, start + 1) * 10 + digitAt(code, start + 2)] === true;
}

function followsLines(code: string): boolean {
  return [3, 4].some(end => padLines.has(code.slice(0, end)) && goesOn(code, end));
}

/** Whether lines lead from `from`, where a whole one has ended, to the end of the code. */
function goesOn(code: string, from: number): boolean {
  const left = code.length - from;
  if (left === 0) return true;
  if (left === 1 ? padBeginnings.has(code.slice(from - 1)) : left === 2 && padBeginnings.has(code.slice(from))) return true;
  return [from - 1, from].some(start =>
    [3, 4].some(length => start + length <= code.length && padLines.has(code.slice(start, start + length)) && goesOn(code, start + length)),
  );
}

function digitAt(code: string, index: number): number {
  return code.charCodeAt(index) - 48;
}
