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

/** Nothing leaks at all. */
export const NO_LEAK: LeakThought = { size: 0, doubt: 0, steam: 0.5, steamDoubt: 0, weight: 1 };

/** One boiler in ten is tight (our choice). */
const TIGHT = 0.1;
/**
 * The others' leaks differ by times, not by a little more or less. A fitting is thought worth mending from 0.3 to 0.5 g/min
 * on, and in good order passes a small part of that, one four times as much as another; and one owner's engine is as much
 * better kept than another's. Steam and water together come to about a fifth of the steam that would carry off what goes
 * through the surface: in two engines of three to between a thirtieth and four fifths, in one of ten to more than as much
 * and a third (our choice).
 */
const USUAL = { size: 0.22, logSd: 1.4 };
/** Sizes tried, each twice the one before, give or take two fifths so that none is left out between them. */
const SIZES = Array.from({ length: 9 }, (_, i) => 0.02 * 2 ** i);
const DOUBT = 0.4;
/** Spread of the sizes tried, about each of which there is a doubt of its own. */
const LOG_SD = Math.sqrt(USUAL.logSd ** 2 - DOUBT ** 2);
/**
 * Steam or water: about twice as many fittings stand above the water as below it, but the same hole passes several times as
 * much boiling water as steam. Where it boils at once in the hole L/(vg - vf)/root(T cp) bounds the flow (from memory), five
 * to seven times what Napier's rule gives of steam at 2 to 8 bar; where it does not, Bernoulli gives 20 to 60 times. A drip is
 * seen, and its fitting mended, sooner than a breath of steam: two to four times is thought to be left of that. So a leak is
 * mostly of both, and one of water alone twice as large as others (our choice).
 */
const STEAM = [
  { steam: 0, steamDoubt: 0.1, weight: 0.25, times: 1.9 },
  { steam: 0.5, steamDoubt: 0.25, weight: 0.45, times: 1 },
  { steam: 1, steamDoubt: 0.1, weight: 0.3, times: 0.9 },
];

const withSteam = (size: number, doubt: number, likely: (times: number) => number): LeakThought[] =>
  STEAM.map(({ weight, times, ...steam }) => ({ size, doubt, ...steam, weight: weight * likely(times) }));

const LEAKING = SIZES.flatMap((size) =>
  withSteam(size, DOUBT * size, (times) =>
    Math.exp(-0.5 * (Math.log(size / (USUAL.size * times)) / LOG_SD) ** 2),
  ),
);
const total = LEAKING.reduce((sum, { weight }) => sum + weight, 0);

/** Leaks of any size, and none. */
export const LEAKS_UNSEEN: readonly LeakThought[] = [
  { ...NO_LEAK, weight: TIGHT },
  ...LEAKING.map((leak) => ({ ...leak, weight: ((1 - TIGHT) * leak.weight) / total })),
];

const STEPS = [0.125, 0.375, 0.625, 0.875];

/**
 * Anything from none to the most that may have leaked, all alike likely.
 * @param most as a share of all the heat that goes, surface and leak together; below 1
 */
export const leaksUpTo = (most: number): LeakThought[] =>
  STEPS.flatMap((step) => {
    const left = 1 - step * most;
    return withSteam((step * most) / left, most / STEPS.length / Math.sqrt(12) / left ** 2, () => 1);
  });
