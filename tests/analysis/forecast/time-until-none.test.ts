import { expect, test } from "vitest";
import { chanceFirst, type Draining, timeUntilNone } from "../../../src/analysis/forecast/time-until-none.ts";

const draining = (left: number, rate: number, more: Partial<Draining> = {}): Draining => ({
  left,
  rate,
  leftVariance: 0,
  rateVariance: 0,
  covariance: 0,
  degreesOfFreedom: Number.POSITIVE_INFINITY,
  ...more,
});

test("without doubt of the rate the range is that of what is left, over it", () => {
  const [soonest, latest] = timeUntilNone(draining(100, 10, { leftVariance: 9 }), 0.9);
  expect(soonest).toBeCloseTo((100 - 1.64485 * 3) / 10, 3);
  expect(latest).toBeCloseTo((100 + 1.64485 * 3) / 10, 3);
});

test("a doubtful rate reaches further up than down", () => {
  const [soonest, latest] = timeUntilNone(draining(100, 10, { rateVariance: 4 }), 0.9);
  expect(soonest).toBeCloseTo(100 / (10 + 1.64485 * 2), 3);
  expect(latest).toBeCloseTo(100 / (10 - 1.64485 * 2), 3);
});

// at either end (100 - 10 t)^2 is 1.64485^2 of its variance, 36 - 2 t 5 + 4 t^2
test("errors that left and rate share count in both ends", () => {
  const ends = timeUntilNone(draining(100, 10, { leftVariance: 36, rateVariance: 4, covariance: 5 }), 0.9);
  expect(ends.map((t) => t > 10)).toEqual([false, true]);
  for (const t of ends)
    expect(Math.abs(100 - 10 * t) / Math.sqrt(36 - 10 * t + 4 * t ** 2)).toBeCloseTo(1.64485, 4);
});

test("what may be gone already has no least time, and nine in ten lie below the most", () => {
  const [soonest, latest] = timeUntilNone(draining(1, 10, { leftVariance: 9 }), 0.9);
  expect(soonest).toBe(0);
  // 1.2816 is the normal quantile of nine tenths
  expect(latest).toBeCloseTo((1 + 1.2816 * 3) / 10, 3);
});

test("a rate that may be none sets no end", () => {
  expect(timeUntilNone(draining(100, 10, { rateVariance: 49 }), 0.9)[1]).toBe(Number.POSITIVE_INFINITY);
});

test("like against like is even; the chances of either first make one; what is surely sooner is first", () => {
  const one = draining(100, 10, { leftVariance: 100, rateVariance: 1 });
  const other = draining(150, 10, { leftVariance: 100, rateVariance: 1 });
  expect(chanceFirst(one, one)).toBeCloseTo(0.5, 2);
  expect(chanceFirst(one, other) + chanceFirst(other, one)).toBeCloseTo(1, 2);
  // 10 and 15 min, each by 1 g/min or 10 g: z is the difference over both spreads at about 12 min
  expect(chanceFirst(one, other)).toBeGreaterThan(0.9);
  expect(chanceFirst(one, draining(300, 10, { leftVariance: 1 }))).toBeGreaterThan(0.999);
});

/** Of two times, left and rate drawn by chance, the one is sooner as often as is said. */
test("the chance is that of draws of both", () => {
  // an even net of normal quantiles in place of draws
  const quantiles = Array.from({ length: 31 }, (_, i) => normalQuantile((i + 0.5) / 31));
  /** a part of the rate's error goes with that of what is left */
  const drawn = (shared: number) => {
    const own = Math.sqrt(1 - shared ** 2);
    let first = 0;
    for (const a of quantiles)
      for (const b of quantiles)
        for (const c of quantiles)
          for (const d of quantiles)
            if ((80 + 8 * a) / (8 + 1.2 * (shared * a + own * b)) < (24 + 2 * c) / (2.2 + 0.2 * d))
              first += 1;
    return first / 31 ** 4;
  };
  for (const shared of [0, 0.5, -0.5]) {
    const water = draining(80, 8, { leftVariance: 64, rateVariance: 1.44, covariance: shared * 8 * 1.2 });
    const fuel = draining(24, 2.2, { leftVariance: 4, rateVariance: 0.04 });
    expect(chanceFirst(water, fuel)).toBeCloseTo(drawn(shared), 2);
  }
});

/** By halving, of a sum of the density. */
function normalQuantile(share: number): number {
  const below = (z: number) => {
    let sum = 0;
    for (let x = -8; x < z; x += 0.001) sum += 0.001 * Math.exp((-x * x) / 2);
    return sum / Math.sqrt(2 * Math.PI);
  };
  let [low, high] = [-8, 8];
  for (let i = 0; i < 20; i++) {
    const middle = (low + high) / 2;
    if (below(middle) < share) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
