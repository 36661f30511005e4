import { expect } from "vitest";
import type { BalanceInput } from "../../../src/analysis/water/balance-factors.ts";
import type { DemandEffect } from "../../../src/analysis/water/demand-effects.ts";
import type { WaterMove } from "../../../src/analysis/water/feed-course.ts";
import type { MassReading } from "../../../src/analysis/water/mass-reading.ts";
import type { WaterBalance } from "../../../src/analysis/water/water-balance.ts";
import type { Measured } from "../../../src/quantity/measured.ts";

/** Parts of a water balance made by hand, so that its answer can be known from a formula. */
export const reading = (atS: number, grams: number, more: Partial<MassReading> = {}): MassReading => ({
  atS,
  order: atS,
  grams,
  uGrams: 1,
  of: "contents",
  shared: [],
  ...more,
});

export const move = (atS: number, grams: number, more: Partial<WaterMove> = {}): WaterMove => ({
  atS,
  order: atS,
  grams,
  over: null,
  isFeed: true,
  fromOutside: true,
  scaleRelative: 0,
  source: "feed scale",
  sourceName: "scale of the feed measure",
  uGrams: 0,
  uTimingG: 0,
  byHand: true,
  ...more,
});

/** A rate of its own in a stretch, left quite open. */
export const rateWithin = (fromS: number, toS: number, prior = 10): DemandEffect => ({
  name: "running",
  within: [[fromS, toS]],
  prior,
});

export const balanceInput = (
  readings: readonly MassReading[],
  more: Partial<BalanceInput> = {},
): BalanceInput => ({
  readings,
  moves: [],
  effects: [rateWithin(-1e6, 1e6)],
  livelyS: (atS) => atS,
  pumpingS: null,
  pumpPrior: { gPerS: 0, uGPerS: 0 },
  ...more,
});

/** A demand as good as steady. */
export const STEADY = [{ size: 1e-7, memoryS: 30 }];

export function estimated(
  balance: WaterBalance | null,
  wanted: Omit<Parameters<WaterBalance["estimate"]>[0], "unit">,
): Measured {
  const figure = balance?.estimate({ unit: "g", ...wanted });
  if (figure === null || figure === undefined) throw new Error("the readings do not fix it");
  return figure;
}

export const drawnBetween = (fromS: number, toS: number) => ({
  drawn: [
    [toS, 1],
    [fromS, -1],
  ] as const,
});
export const standingAt = (atS: number) => ({ contents: [[atS, 1]] as const });

/** What parts of one name come to. */
export const partNamed = ({ parts }: Measured, name: string): number =>
  Math.hypot(...parts.filter((part) => part.name === name).map(({ u }) => u));

export const near = (got: number, byHand: number, relative = 1e-3) =>
  expect(Math.abs(got / byHand - 1)).toBeLessThan(relative);
/** The part of a figure's doubt that the wandering demand leaves. */
export const NOT_STEADY = "demand that was not steady";
