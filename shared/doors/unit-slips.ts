/** How units are written elsewhere: each with what is meant by it here. */
const unitSlips: ReadonlyMap<string, string> = new Map([
  ["v", "V"],
  ["volt", "V"],
  ["volts", "V"],
  ["vdc", "V DC"],
  ["vac", "V AC"],
  ["a", "A"],
  ["amp", "A"],
  ["amps", "A"],
  ["ampere", "A"],
  ["amperes", "A"],
  ["ma", "mA"],
  ["milliamp", "mA"],
  ["milliamps", "mA"],
  ["metre", "m"],
  ["metres", "m"],
  ["meter", "m"],
  ["meters", "m"],
  ["mtr", "m"],
  ["mm", "mm2"],
  ["sqmm", "mm2"],
  ["qmm", "mm2"],
  ["awg", "AWG"],
  ["ga", "AWG"],
  ["gauge", "AWG"],
  ["c", "C"],
  ["celsius", "C"],
  ["deg", "C"],
  ["degrees", "C"],
  ["percent", "%"],
  ["pc", "%"],
  ["ah", "Ah"],
  ["hr", "h"],
  ["hrs", "h"],
  ["hour", "h"],
  ["hours", "h"],
]);

/** Metres of a length in feet, to the centimetre; undefined for any other unit. The international foot is 0.3048 m. */
export function metresOfFeet(value: number, written: string): number | undefined {
  return /^(?:ft|feet|foot)$/i.test(written) ? Math.round(value * 30.48) / 100 : undefined;
}

/** What was probably meant by a word that is no unit of ours; undefined for one that nobody writes. */
export function unitMeant(written: string): string | undefined {
  return unitSlips.get(written.toLowerCase());
}
