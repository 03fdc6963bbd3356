/** Invented sites of any length for the bench: three models, codes and tags, notes, comments, and something to find on one line in fifty. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { weakness } from "../../shared/codes/weak.ts";

const samples = join(import.meta.dirname, "../../samples/models");
const modelText = (id: string): string => readFileSync(join(samples, `${id}.mullion`), "utf8");

/** The three models of every generated site, as the samples have them, with what a keypad of each is given. */
const kinds = [
  { model: "dunlin-3", relays: 3, perRelay: 30, codeDigits: 5, installerDigits: 5, slotDigits: 2, firstSlot: 0, tags: true },
  { model: "plover-1", relays: 1, perRelay: 90, codeDigits: 6, installerDigits: 6, slotDigits: 0, firstSlot: 1, tags: true },
  { model: "whimbrel-2", relays: 2, perRelay: 40, codeDigits: 6, installerDigits: 6, slotDigits: undefined, firstSlot: 1, tags: true },
] as const;
type Kind = (typeof kinds)[number];

export const modelIds: readonly string[] = kinds.map(({ model }) => model);
const modelsText: string = modelIds.map(modelText).join("\n");

/**
 * The text of one site of exactly so many lines, the same each time.
 *
 * @param lines at least 40; the three models of `inside` take about 130 of them
 * @param models `inside`: they stand in the text itself; otherwise the text uses them from files in this folder
 * @param number tells sites of equal length apart
 */
export function siteText(lines: number, models: "inside" | { readonly folder: string }, number = 0): string {
  const chance = new Chance(lines * 7919 + number * 104_729 + 1);
  // A site of fifty lines has one keypad, the next of them one of the next kind.
  const kindAt = (index: number): Kind => kinds[(index + number) % kinds.length] ?? kinds[0];
  const small = lines < 200;
  const said: string[] = [];
  if (models !== "inside") {
    const used = small ? [kindAt(0).model] : modelIds;
    for (const id of used) said.push(`use "${models.folder}/${id}.mullion"`);
    said.push("");
  }
  said.push(`site "Slipway ${number}" {`, `  address "Slip Lane ${1 + (number % 90)}, Eastmere"`, `  contact "Wharf office"`, "}", "");
  if (models === "inside") said.push(...modelsText.trimEnd().split("\n"), "");
  for (let index = 0; said.length < lines; index++) said.push(...keypadLines(kindAt(index), index, lines - said.length, chance));
  return `${said.slice(0, lines).join("\n")}\n`;
}

/** One keypad and its holders, in at most so many lines; what is too short for a keypad is comments. */
function keypadLines(kind: Kind, index: number, room: number, chance: Chance): string[] {
  const aroundEntries = 6 + 3 * kind.relays;
  const full = kind.relays * kind.perRelay;
  if (room < aroundEntries + mostOfHolder * kind.relays) return remarks(room);
  const holders: string[] = [];
  const relays: string[][] = Array.from({ length: kind.relays }, () => []);
  const taken = new Set<string>();
  const code = (): string => {
    for (;;) {
      const digits = chance.digits(kind.codeDigits);
      // Whoever draws codes avoids the weak ones; one in ten of those was chosen by its holder.
      if (taken.has(digits) || (weakness(digits) !== undefined && !chance.oneIn(10))) continue;
      taken.add(digits);
      return digits;
    }
  };
  const place = (relay: number, held: string): void => {
    const entries = relays[relay] as string[];
    const before = relays.slice(0, kind.model === "plover-1" ? kind.relays : 0).reduce((sum, each) => sum + each.length, 0);
    // One in sixty stands in the slot of the entry before it.
    const clash = kind.slotDigits !== undefined && entries.length > 0 && chance.oneIn(60);
    const slot = kind.firstSlot + (kind.model === "plover-1" ? before : entries.length) - (clash ? 1 : 0);
    const number = kind.slotDigits === undefined ? "" : `${String(slot).padStart(kind.slotDigits, "0")} `;
    entries.push(`    ${number}${held}${chance.oneIn(15) ? ` // placed ${chance.day(2024)}` : ""}`);
  };
  const said = () => aroundEntries + holders.length + relays.reduce((sum, entries) => sum + entries.length, 0);
  for (let holder = 0; holder < full && room - said() >= mostOfHolder; holder++) {
    const id = `h${index}-${holder}`;
    const label = `Unit ${index}/${holder}, ${chance.one(trades)}`;
    const relay = holder % kind.relays;
    // One in seventy is a digit short.
    const digits = chance.oneIn(70) ? code().slice(0, 3) : code();
    const placed = relays[relay]?.length ?? 0;
    const kindOfHolder = chance.below(10);
    if (kindOfHolder < 6 || placed >= kind.perRelay - 1) holders.push(`holder ${id} "${label}" code ${digits}`);
    else if (kindOfHolder < 8) {
      holders.push(
        `holder ${id} "${label}"`,
        `  code ${digits}`,
        `  tag ${chance.tag(kind.model === "whimbrel-2")} "${chance.one(marks)}"`,
      );
      place(relay, `${id}.tag`);
    } else if (kindOfHolder < 9)
      holders.push(`holder ${id} "${label}"`, `  until ${chance.oneIn(10) ? "2026-03-31" : "2031-03-31"}`, `  code ${digits}`);
    else holders.push(`holder ${id} "${label}"`, `  note "Rings the bell, ${chance.one(trades)}"`, `  code ${digits}`);
    place(relay, chance.oneIn(150) ? `${id}x` : id);
  }
  const lines = [
    `// Keypad ${index}, as surveyed on ${chance.day(2023)}`,
    ...holders,
    `keypad k${index} "Gate ${index}" : ${kind.model} {`,
    `  installer code ${code()}`,
    ...relays.flatMap((entries, relay) => [`  relay ${relay + 1} "Door ${index}/${relay + 1}" release 5s {`, ...entries, "  }"]),
    "}",
    "",
  ];
  // What is left at the end of a text is too short for another holder.
  return [...lines, ...remarks(room - lines.length < mostOfHolder ? room - lines.length : 0)];
}

/** Lines of a holder with a code and a tag, and their entries. */
const mostOfHolder = 5;

function remarks(count: number): string[] {
  return Array.from({ length: count }, (_, line) => `// Line ${line + 1} of what is kept free`);
}

const trades = ["pottery", "sail loft", "print room", "joinery", "net store", "bakery", "boat yard", "glass works"];
const marks = ["blue fob", "red dot", "grey card", "ring"];

/** Numbers that look drawn and are the same each time: Marsaglia, "Xorshift RNGs", Journal of Statistical Software 8 (2003), 32 bits. */
class Chance {
  #state: number;

  constructor(seed: number) {
    this.#state = (seed | 0) === 0 ? 1 : seed | 0;
    for (let i = 0; i < 20; i++) this.below(2);
  }

  /** 0 to one less than `limit`. */
  below(limit: number): number {
    let x = this.#state;
    x ^= x << 13;
    x ^= x >>> 17;
    x ^= x << 5;
    this.#state = x;
    return Math.floor(((x >>> 0) / 0x1_0000_0000) * limit);
  }

  oneIn(count: number): boolean {
    return this.below(count) === 0;
  }

  one<T>(choices: readonly T[]): T {
    return choices[this.below(choices.length)] as T;
  }

  digits(count: number): string {
    return Array.from({ length: count }, () => String(this.below(10))).join("");
  }

  /** One of the three spellings of a tag of 24 bits; where it is typed in two parts, as facility and number. */
  tag(inParts: boolean): string {
    const number = 1 + this.below(0xff_fffe);
    const spelling = inParts ? 1 : this.below(3);
    if (spelling === 0) return String(number);
    if (spelling === 1) return `${number >> 16},${String(number & 0xffff).padStart(5, "0")}`;
    return `0x${number.toString(16).toUpperCase().padStart(6, "0")}`;
  }

  day(year: number): string {
    return `${year}-${String(1 + this.below(12)).padStart(2, "0")}-${String(1 + this.below(28)).padStart(2, "0")}`;
  }
}

/** One keypad of one relay whose slots are all to be typed, so many of them. */
export function fullKeypadText(slots: number): string {
  const chance = new Chance(slots);
  const codes = new Set<string>();
  while (codes.size < slots) codes.add(chance.digits(7));
  const all = [...codes];
  const width = String(slots - 1).length;
  const model = modelText("dunlin-3").replace(/^ {2}slots .*$/m, `  slots ${"0".repeat(width)}..${slots - 1} per relay`);
  return [
    model,
    ...all.map((digits, index) => `holder h${index} "Unit ${index}, ${chance.one(trades)}" code ${digits}`),
    'keypad gate "Lane gate" : dunlin-3 {',
    "  installer code 6044173",
    '  relay 1 "Foot gate" release 5s {',
    ...all.map((_, index) => `    ${String(index).padStart(width, "0")} h${index}`),
    "  }",
    "  relay 2 spare",
    "  relay 3 spare",
    "}",
    "",
  ].join("\n");
}
