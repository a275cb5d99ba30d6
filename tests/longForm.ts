/** Whether this is the long form, `npm run steady`: its configuration says so. */
export const isLong = process.env.SPLITSUM_LONG !== undefined;

/** Of cases that are alike the first few, the most telling ones; in the long form all. */
export const firstOf = <T>(cases: readonly T[], count: number): readonly T[] =>
  isLong ? cases : cases.slice(0, count);

/** Random cases: some, and in the long form eight times as many. */
export const runsOf = (some: number): number => (isLong ? 8 * some : some);
