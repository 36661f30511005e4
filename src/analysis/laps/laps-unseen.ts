import { type Measured, measured } from "../../quantity/measured.ts";

/**
 * Of laps tapped one by one, the part that is lost for good: mean and standard deviation over owners, for who forgets
 * one forgets more (our estimate). As many again are noticed at the next tap and counted with it.
 */
const LOST = { mean: 0.01, sd: 0.015 };
/** Of all laps, those whose gap would have shown but was taken for something else (our estimate). */
const SHOWN_IN_VAIN = 0.015;

/**
 * Laps lost without a trace, by Bayes: an owner's rate is a gamma variate, told by the laps forgotten that were noticed
 * (counted with the next tap) or found by their gap, and by how many taps there are with none.
 * @param found laps that a gap gave away
 * @param wouldShow the taps are so regular that a gap gives a lost lap away
 */
export function unseenLaps(laps: readonly { count: number }[], found: number, wouldShow: boolean): Measured {
  const counted = laps.reduce((sum, { count }) => sum + count, 0);
  const unseen = (mean: number, u: number) => measured(mean, u, "1", "laps perhaps not recorded");
  if (wouldShow) return unseen(0, SHOWN_IN_VAIN * (counted + found));
  const taps = laps.filter(({ count }) => count === 1).length;
  const forgotten = found + noticedLaps(laps);
  const shape = (LOST.mean / LOST.sd) ** 2 + forgotten;
  const rate = LOST.mean / LOST.sd ** 2 + taps;
  const mean = (taps * shape) / rate;
  return unseen(mean, Math.sqrt(mean * (1 + taps / rate)));
}

/** Laps that were forgotten and counted with the next; where two at a time are as usual as one, none were. */
export function noticedLaps(laps: readonly { count: number }[]): number {
  const taps = laps.filter(({ count }) => count === 1).length;
  const noticed = laps.filter(({ count }) => count === 2).length;
  return noticed < taps ? noticed : 0;
}
