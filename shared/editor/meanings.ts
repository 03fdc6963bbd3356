/** What the words of the language mean, in a sentence or two each: for hovers and beside completions. */
import { keywords } from "../../grammar/tokens.ts";

/** Where one word means different things, the word that begins its declaration or fact tells which: `model contact`. */
const meanings: Readonly<Record<string, string>> = {
  /* Declarations */
  use: "What that file declares is seen here, and by whoever uses this file. The path is relative to this file.",
  site: "The place whose keypads this file keeps. `mullion check` checks each site once, with all that it uses.",
  policy: "The site's own rules for codes: which are too weak, how near two may be, what odds a guess may have.",
  holder: "Whoever is given a code or a tag: a flat, a firm, a cleaner. Codes live here, so that keypads hold no secret.",
  model: "A kind of keypad, written once from its manual: what its memory is like, and which keys do what.",
  keypad: "One keypad at a door or a gate: its model, its relays, and who is in which slot.",
  fitted: "What a keypad is known to hold, because it was typed and ticked off. Only the difference to it is typed.",
  door: "What is wired behind the relays of this label: lock, contact, cable, way out.",
  supply: "A power supply with its battery, and what it feeds.",

  /* Facts */
  address: "Where the site is. It never stands on a sheet that has codes.",
  contact: "Who is asked when something is unclear.",
  note: "A remark, kept with what it is said of.",
  code: "Digits that open. Leading zeros count. A second code of one holder has a name: `code yard`, then the digits.",
  tag: "What is presented instead of keyed: its number in any of three spellings, or only its mark. A second tag has a name.",
  until: "The last day on which it is meant to open anything. The keypad has no calendar: what has lapsed opens until it is taken out.",
  lost: "This tag cannot be presented any more. It still opens until its slot is cleared.",
  installer: "The code that enters programming mode. Better taken from a holder than written in the keypad.",
  "all-relay": "A code that fires any relay, keyed with the relay's number.",
  relay: "A contact of the keypad that releases a door or a gate. Two relays with one label are one door.",
  setting: "Anything else that the manual lets one set by number. It is typed, recorded, and typed again after a reset.",
  spare: "Nothing is wired to this relay, and that is meant.",
  no: "`no codes`: something is wired to this relay, but a button or a handset fires it.",
  release: "How long the door stays open to a good code.",
  toggle: "Open until it is keyed again.",
  or: "The slot holds a code and a tag; either opens.",
  with: "The slot holds a code and a tag; both are needed.",
  unknown: "Nobody can say what this holds. It is cleared or overwritten before anything is relied on.",
  partly: "What is listed is known, and the rest is not.",

  /* Models */
  keys: "The keys that the keypad has. Without this line: `0..9 * #`.",
  relays: "What is typed for each relay, and for each set of relays.",
  slots: "The numbered places of the memory, and whether they belong to a relay or to the keypad.",
  codes: "How many digits a code has.",
  length: "What decides how many digits codes have, where there is a choice.",
  rewrite: "What typing into a taken slot does: it `replaces`, or it is `refused` and the slot must be cleared first.",
  twins: "What one code in two slots does: `refused`, or only the `first fires`, or `all fire`.",
  relength: "What a new code length does to stored codes: it `clears` them, or `keeps what was stored` asleep.",
  settle: "How long after power-up before it can be programmed.",
  lapse: "Programming mode ends after this long without a key.",
  lockout: "How many wrong codes it takes before the keypad stops listening, and for how long.",
  refused: "What tells that an entry was not taken.",
  cancel: "How to get out of a half-typed entry.",
  reset: "A reset that is done by hand, and what it brings back to factory.",
  tags: "How many data bits a tag has: 24 unless said.",
  session: "`session one entry`: programming mode ends after each entry.",
  listens: "From which key a code is read: `from the first key`, or `to the last keys`, where any run that ends in a code opens.",
  acts: "When a code fires: `at once`, or `after a pause`, where a longer code can still win.",
  draws: "The keypad's own current.",
  factory: "What the keypad holds when new.",
  shows: "What tells the person that the entry was taken.",
  wipes: "`wipes everything`: this brings the whole keypad back to factory.",
  holds: "What one slot may have: `code or tag`, either opens; `code with tag`, both are needed.",
  digits: "How many digits.",
  per: "`per relay`: each relay has slots of its own; `one per relay`: one fixed code each, without a number.",
  shared: "One memory for the whole keypad: a number is used once, and its entry says which relay it fires.",
  unnumbered: "The keypad finds its own place; entries carry no number.",
  follows: "`follows installer code`: codes are as long as the installer code.",
  free: "Codes of every allowed length may be stored side by side.",
  replaces: "The later entry takes the place of the earlier.",
  clears: "Codes and all-relay codes go; tags stay.",
  keeps: "A code of another length stays stored and does not open.",
  fires: "`first fires`: of two equal codes, only that of the lowest relay and slot opens.",
  fire: "`all fire`: each of two equal codes opens what it is stored for.",

  /* Operations */
  enter: "Opens programming mode.",
  leave: "Ends programming mode. A model without it is left by waiting for `lapse`.",
  put: "Stores a code or a tag.",
  clear: "Takes something out of the memory.",
  set: "Changes something that the keypad has once: installer code, all-relay code, release time, code length.",
  open: "What is keyed or presented in everyday use.",

  /* Policy */
  weak: "Codes that are guessed first: repeats, runs, years, dates, patterns on the pad. `warn` unless said; `refuse` makes it an error, `allow` silences it.",
  near: "Codes that open different doors of one keypad and differ in fewer digits than this. `2 digits` unless said, which catches every single mistyped digit.",
  guess: "The odds of hitting a live code before the keypad locks out. Shown, not judged, unless said.",
  warn: "A warning; the sheet is written all the same.",
  refuse: "An error; the sheet is held back.",
  allow: "Not judged.",

  /* Doors and supplies */
  lock: "What holds the door, its voltage and current, and what it does without power.",
  cable: "The run from supply to lock, one way.",
  exit: "How one leaves without a code.",
  route: "Whether people must leave by this door in a fire. Local code and a competent person decide what that asks for.",
  battery: "What keeps the locks powered when the mains fail.",
  feeds: "What this supply powers.",
  strike: "A lock in the frame that lets the latch go.",
  magnet: "A magnet that holds the door as long as it has power.",
  bolt: "A bolt moved by current.",
  motor: "`motor lock`: a lock driven by a motor.",
  start: "`start contact`: a gate or barrier operator that the keypad only asks to move.",
  "fail-safe": "Unlocked when power is lost.",
  "fail-secure": "Locked from outside when power is lost. It says nothing of the way out.",
  stays: "Stays as it is without power.",
  inrush: "The current while the lock pulls in.",
  resistive: "The lock's current follows its voltage.",
  escape: "People must be able to leave by this door in a fire.",
  alarm: "`release on alarm`: something outside Mullion cuts the lock's power on a fire alarm.",
  people: "`near people`: moving parts are within reach of whoever stands at the keypad.",

  /* Fields */
  "{installer}": "The installer code in force.",
  "{code}": "The code. Where it stands twice it is typed twice.",
  "{tag}": "The tag's printed number: `{tag:10}` as ten decimal digits, `{tag:3+5}` as facility and number.",
  "{relay}": "What the `relays` line says for the relay.",
  "{relay-number}": "The relay's plain number.",
  "{slot}": "The slot's number, as wide as the `slots` line writes it.",
  "{seconds}": "The release time; `{seconds:2}` pads it with a zero.",
  "{digits}": "The length that codes have from now on.",
  "{value}": "The value of a setting.",

  /* By what they are said of */
  "model contact": "What the keypad's relays can switch.",
  "door contact": "How the relay must move to open: `closes to open` or `opens to open`.",
  "model tags": "How many data bits a tag has: 24 unless said.",
  "keypad code": "`code length`: how many digits codes have on this keypad.",
};

const known: ReadonlySet<string> = new Set(keywords);

/**
 * What a word means.
 *
 * @param within the word that begins the declaration it stands in; "" outside
 */
export function meaningOf(word: string, within: string): string | undefined {
  return meanings[`${within} ${word}`] ?? (known.has(word) ? meanings[word] : undefined);
}

/** What a field in an operation's keys stands for. */
export function meaningOfField(name: string): string | undefined {
  return meanings[`{${name}}`];
}
