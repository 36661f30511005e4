/** What a leak nobody has seen may be, of all that is shut. */
export interface LeakThought {
  /** as a share of the leak whose heat, were it all steam, is that lost through the surface; and standard uncertainty */
  size: number;
  doubt: number;
  /** part of it that is steam, the rest boiling water; and standard uncertainty */
  steam: number;
  steamDoubt: number;
  /** how likely beforehand, against the others */
  weight: number;
}

/**
 * Leaks differ by times, not by a little more or less, and are never below none. A fitting is thought worth mending from
 * 0.3 to 0.5 g/min on, and in good order passes a small part of that, one three times as much as another; four or five of
 * them, beside 30 to 50 W through the surface, come to about a seventh of it in heat: two engines in three between a
 * fifteenth and a third, one in a hundred as much as all of it (our choice).
 */
const USUAL = { size: 0.15, logSd: 0.8 };
/** Sizes tried, each twice the one before, give or take two fifths so that none is left out between them. */
const SIZES = Array.from({ length: 9 }, (_, i) => 0.02 * 2 ** i);
const DOUBT = 0.4;
/** Spread of the sizes tried, about each of which there is a doubt of its own. */
const LOG_SD = Math.sqrt(USUAL.logSd ** 2 - DOUBT ** 2);
/**
 * Steam or water: about twice as many fittings stand above the water as below it, and most of a leak is mostly one
 * fitting's, all steam or all water (our choice).
 */
const STEAM = [
  { steam: 0, steamDoubt: 0.1, weight: 0.2 },
  { steam: 0.5, steamDoubt: 0.25, weight: 0.35 },
  { steam: 1, steamDoubt: 0.1, weight: 0.45 },
];

const withSteam = (size: number, doubt: number, likely: number): LeakThought[] =>
  STEAM.map(({ weight, ...steam }) => ({ size, doubt, ...steam, weight: weight * likely }));

/** Leaks of any size. */
export const LEAKS_UNSEEN: readonly LeakThought[] = SIZES.flatMap((size) =>
  withSteam(size, DOUBT * size, Math.exp(-0.5 * (Math.log(size / USUAL.size) / LOG_SD) ** 2)),
);

const STEPS = [0.125, 0.375, 0.625, 0.875];

/**
 * Anything from none to the most that may have leaked, all alike likely.
 * @param most as a share of all the heat that goes, surface and leak together; below 1
 */
export const leaksUpTo = (most: number): LeakThought[] =>
  STEPS.flatMap((step) => {
    const left = 1 - step * most;
    return withSteam((step * most) / left, most / STEPS.length / Math.sqrt(12) / left ** 2, 1);
  });
