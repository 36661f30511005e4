/** To so much a clock or a pocket book is read where it is not read to the second, s (common practice). */
const READ_TO_S = [60, 30, 20, 15, 10, 5];
/** Fewer moments than this are as likely round by chance (our choice). */
const FEWEST = 6;

/**
 * The grain of the times written down: the greatest step to which a clock is read that all of them have in common, s; 0
 * where they are to the second or finer, or too few to tell.
 */
export function clockGrainS(entries: readonly { atS: number }[]): number {
  const [first] = entries;
  if (first === undefined) return 0;
  const grainS = READ_TO_S.find((stepS) => entries.every(({ atS }) => (atS - first.atS) % stepS === 0)) ?? 0;
  return grainS > 0 && new Set(entries.map(({ atS }) => atS)).size >= FEWEST ? grainS : 0;
}

/** Standard uncertainty of a moment written down by such a clock, s: anywhere within the grain. */
export const uClockS = (entries: readonly { atS: number }[]): number => clockGrainS(entries) / Math.sqrt(12);
