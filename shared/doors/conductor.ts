/** What a metre of cable resists: the tables of IEC 60228, the wire gauge of ASTM B258, and what warmth does to copper. */

/** Class 1 is solid, 2 stranded, 5 flexible. */
export type ConductorClass = 1 | 2 | 5;

/** Highest d.c. resistance at 20 °C of plain annealed copper, ohms per kilometre, by mm². Source: IEC 60228, its tables for classes 1 and 2, and 5. */
const fixed: ReadonlyMap<number, number> = new Map([
  [0.5, 36.0],
  [0.75, 24.5],
  [1, 18.1],
  [1.5, 12.1],
  [2.5, 7.41],
]);
const flexible: ReadonlyMap<number, number> = new Map([
  [0.5, 39.0],
  [0.75, 26.0],
  [1, 19.5],
  [1.5, 13.3],
  [2.5, 7.98],
]);

/** The cross-sections that the tables have, mm². */
export const crossSections: readonly number[] = [...fixed.keys()];

/** Ohm mm²/m of annealed copper at 20 °C. Source: IEC 60028 (1925), 58 S m/mm². */
export const copperResistivity = 0.017241;
/** Change with each kelvin from 20 °C. Source: IEC 60028. */
const copperAlpha = 0.00393;

/** Ohms per kilometre of one conductor at 20 °C; undefined for a cross-section (mm²) that the tables of IEC 60228 do not have. */
export function ohmsPerKmOfSection(mm2: number, kind: ConductorClass): number | undefined {
  return (kind === 5 ? flexible : fixed).get(mm2);
}

/** Diameter in mm of a solid round wire. Source: ASTM B258, 0.005 in × 92^((36 − gauge) / 39). */
export function gaugeDiameter(gauge: number): number {
  return 0.127 * 92 ** ((36 - gauge) / 39);
}

/** Cross-section in mm² of a solid round wire of an American wire gauge. */
export function gaugeSection(gauge: number): number {
  return (Math.PI / 4) * gaugeDiameter(gauge) ** 2;
}

/** Ohms per kilometre of one solid conductor at 20 °C; stranded wire of the same gauge resists about 2 % more. */
export function ohmsPerKmOfGauge(gauge: number): number {
  return (1000 * copperResistivity) / gaugeSection(gauge);
}

/**
 * By how much more copper resists at a temperature (°C) than at 20 °C: 1 + 0.00393 (T − 20), the convention of IEC 60028.
 * IEC 60228 has another, 250 / (230 + T) back to 20 °C; up to 70 °C the two differ by less than 0.3 %.
 */
export function temperatureFactor(celsius: number): number {
  return 1 + copperAlpha * (celsius - 20);
}
