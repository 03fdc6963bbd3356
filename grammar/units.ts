/** How units are written elsewhere: each with what is meant by it here. They are read as units, so that whoever writes one is told. */
export const unitSlips: ReadonlyMap<string, string> = new Map([
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

/** What was probably meant by a word that is no unit of ours; undefined for one that nobody writes. */
export function unitMeant(written: string): string | undefined {
  return unitSlips.get(written.toLowerCase());
}
