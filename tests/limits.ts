/** A test or hook that takes this long hangs: a guard, not a measure. The slowest takes 10 s on an idle machine. */
export const hangMs = 300_000;

/** The same of one step of a test, so that what hangs is told by name before its test is given up. */
export const stepHangMs = 240_000;
