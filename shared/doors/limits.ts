/** The limits that are taken where the text gives none, and how closely a number is held against a limit. */

/** Per cent of the rated volts either way that a lock takes where the text does not say. Common practice, no source. */
export const usualTolerance = 10;
/** Volts of a lead-acid cell: as it is named by, and when it is discharged. Common practice, no source. */
export const cellVolts = { rated: 2, discharged: 1.8 } as const;

/** What a number may be over a limit before it is over it: what arithmetic in binary leaves behind, far below what a meter shows. */
export const arithmetic = 1e-9;
