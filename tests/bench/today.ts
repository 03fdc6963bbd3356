/** The day on which generated sites are looked at: some of what stands in them has lapsed. */
export const today = "2026-12-01";
