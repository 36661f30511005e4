import { describe, expect, it } from "vitest";
import { dayOf } from "../../sample-data/simulator/day.ts";
import { bramling } from "../../sample-data/simulator/engines-spirit.ts";
import { oneFeeding } from "../../sample-data/simulator/feed.ts";
import type { SteamingPlan } from "../../sample-data/simulator/plan.ts";
import { randomOf } from "../../sample-data/simulator/random.ts";
import { randomPlan } from "../../sample-data/simulator/random-plan.ts";
import { reading } from "../../sample-data/simulator/readings.ts";
import { simulate } from "../../sample-data/simulator/simulate.ts";

/**
 * Errors divided by their declared size must have mean 0 and mean square 1. Bounds are four standard deviations
 * of those statistics for n independent normal errors, 1/sqrt(n) and sqrt(2/n); a rounding within the error has
 * lighter tails, which only narrows the second.
 */
function expectUnitErrors(standardised: readonly number[], atLeast: number): void {
  const n = standardised.length;
  expect(n).toBeGreaterThanOrEqual(atLeast);
  const mean = standardised.reduce((sum, x) => sum + x, 0) / n;
  const meanSquare = standardised.reduce((sum, x) => sum + x * x, 0) / n;
  expect(Math.abs(mean)).toBeLessThan(4 / Math.sqrt(n));
  expect(Math.abs(meanSquare - 1)).toBeLessThan(4 * Math.sqrt(2 / n));
}

/** Bramling with a bottle, held after a short run; written to the second and read often. */
function plan(changes: Partial<SteamingPlan> = {}): SteamingPlan {
  const drawn = randomPlan(1);
  return {
    ...drawn,
    engine: bramling,
    track: null,
    train: null,
    fillMl: 145,
    fuel: { by: "ml", first: 40, portions: null },
    instruments: {
      ...drawn.instruments,
      pressureReadingBar: 0.08,
      pressureDivisionBar: 0.1,
      pressureBiasBar: 0.07,
      levelReadingMm: 0.7,
      levelDivisionMm: 1,
      feedRelative: 0.03,
      massReadingG: 1,
      massDivisionG: 1,
      volumeReadingMl: 0.9,
      volumeDivisionMl: 1,
    },
    stages: [
      { kind: "raise", untilBarG: 2.6, atMostS: 900 },
      { kind: "shut-in", forS: 240 },
    ],
    driver: { ...drawn.driver, feed: null },
    observer: {
      ...drawn.observer,
      levelEveryS: 30,
      pressureEveryS: 30,
      holdEveryS: 20,
      stampSdS: 0,
      missed: 0,
      readsAtChanges: false,
      weighs: true,
      writesFill: true,
      writesFuelRemaining: true,
      drains: true,
      drips: [],
      looksAt: [],
      traces: [{ channel: "pressureBarG", everyS: 60, division: 0.01 }],
    },
    ...changes,
  };
}

const seeds = Array.from({ length: 150 }, (_, i) => i);
const runs = seeds.map((seed) => ({ plan: plan(), day: dayOf(plan(), seed), ...simulate(plan(), seed) }));
const density = dayOf(plan(), 0).feedWater.kgPerM3 / 1000;
const at = <T>(values: readonly T[], index: number): T => {
  const value = values[index];
  if (value === undefined) throw new RangeError(`no sample ${index}`);
  return value;
};

describe("a reading", () => {
  it("has the declared uncertainty whole, its rounding counted in", () => {
    const random = randomOf(1, "readings");
    for (const [u, division] of [
      [0.08, 0.1],
      [0.7, 1],
      [0.2, 0.01],
    ] as const) {
      const errors = Array.from({ length: 20_000 }, () => {
        const value = random.between(1, 20);
        return (reading(value, u, division, random) - value) / u;
      });
      expectUnitErrors(errors, 20_000);
    }
  });

  it("stands on a division, and cannot be better than its rounding", () => {
    const random = randomOf(2, "readings");
    for (let i = 0; i < 200; i += 1) {
      const tenths = reading(random.between(0, 9), 0.1, 0.1, random) * 10;
      expect(Math.abs(tenths - Math.round(tenths))).toBeLessThan(1e-9);
    }
    expect(() => reading(1, 0.2, 1, random)).toThrow(/less than the rounding/);
  });
});

describe("what the observer writes", () => {
  it("declares the sizes of error that were used", () => {
    expect(at(runs, 0).locomotive.instruments).toEqual({
      pressureReadingBar: 0.08,
      pressureBiasBar: 0.07,
      levelReadingMm: 0.7,
      feedRelative: 0.03,
      massReadingG: 1,
      volumeReadingMl: 0.9,
    });
  });

  it("has dial readings about truth and the day's bias with the declared error", () => {
    const errors = runs.flatMap(({ steaming, truth, plan: { instruments } }) =>
      steaming.entries.flatMap((entry) => {
        if (entry.kind !== "pressure") return [];
        const shown = at(truth.curves.pressureBarG, entry.atS) + truth.dialBiasBar;
        // near its pin the pointer is held, and a rising pressure moves while it is written
        const moving = Math.abs(
          at(truth.curves.pressureBarG, Math.max(0, entry.atS - 1)) + truth.dialBiasBar - shown,
        );
        return shown < 0.5 || moving > 0.004 ? [] : [(entry.barG - shown) / instruments.pressureReadingBar];
      }),
    );
    expectUnitErrors(errors, 800);
  });

  it("has a bias of the dial and a scale of the feed that differ from run to run as declared", () => {
    const days = Array.from({ length: 4000 }, (_, seed) => dayOf(plan(), seed));
    expectUnitErrors(
      days.map((day) => day.dialBiasBar / 0.07),
      4000,
    );
    expectUnitErrors(
      days.map((day) => day.faults.feedScale / 0.03),
      4000,
    );
    const product = days.reduce(
      (sum, day) => sum + (day.dialBiasBar / 0.07) * (day.faults.feedScale / 0.03),
      0,
    );
    expect(Math.abs(product / days.length)).toBeLessThan(4 / Math.sqrt(days.length));
  });

  it("has glass readings about the true level of the hot water with the declared error", () => {
    const errors = runs.flatMap(({ steaming, truth, day }) =>
      steaming.entries.flatMap((entry) =>
        entry.kind === "level"
          ? [(entry.mm - day.geometry.levelMmAtWaterM3(at(truth.curves.waterM3, entry.atS))) / 0.7]
          : [],
      ),
    );
    expectUnitErrors(errors, 1500);
  });

  it("fills, drains, fuels and weighs with the declared error of one measure", () => {
    const standardised = {
      fill: [] as number[],
      drained: [] as number[],
      left: [] as number[],
      weight: [] as number[],
    };
    const fuel: number[] = [];
    for (const { steaming, truth } of runs) {
      const { curves, endS } = truth;
      for (const entry of steaming.entries) {
        if (entry.kind === "fill") standardised.fill.push((entry.ml - at(curves.massG, 0) / density) / 0.9);
        if (entry.kind === "drained") {
          standardised.drained.push((entry.ml - at(curves.massG, endS) / density) / 0.9);
        }
        if (entry.kind === "fuel" && entry.action === "added" && entry.ml !== undefined) {
          fuel.push((entry.ml - at(curves.fuelG, 0) / 0.81) / 0.9);
        }
        if (entry.kind === "fuel" && entry.action === "remaining" && entry.ml !== undefined) {
          standardised.left.push((entry.ml - at(curves.fuelG, endS) / 0.81) / 0.9);
        }
        if (entry.kind === "weight") {
          const onTheScale = 2000 + at(curves.massG, entry.atS) + at(curves.fuelG, entry.atS);
          standardised.weight.push(entry.g - onTheScale);
        }
      }
    }
    for (const errors of [...Object.values(standardised), fuel]) expectUnitErrors(errors, 150);
  });

  it("keeps a logger's samples about truth and the day's bias", () => {
    const errors = runs.flatMap(({ steaming, truth }) => {
      const trace = steaming.traces?.[0];
      return (trace?.values ?? []).map(
        (value, k) =>
          ((value ?? Number.NaN) - truth.dialBiasBar - at(truth.curves.pressureBarG, k * 60)) / 0.08,
      );
    });
    expectUnitErrors(errors, 1000);
  });
});

describe("a feeding", () => {
  it("differs from what is written by the day's scale and by one reading", () => {
    const random = randomOf(5, "feeding");
    const habits = {
      by: "bottle",
      each: 40,
      mlPerS: 2,
      belowMm: 0,
      aboveMm: 1,
      mostMl: 99,
      onlyStanding: true,
    } as const;
    const errors = Array.from({ length: 5000 }, () => {
      const { writtenMl, trueMl } = oneFeeding(habits, 1, { feedScale: 0.02, readingMl: 0.9 }, random);
      return (trueMl - writtenMl * 1.02) / 0.9;
    });
    expectUnitErrors(errors, 5000);
  });

  it("by strokes varies as single strokes do, 5 % each", () => {
    const random = randomOf(6, "feeding");
    const habits = {
      by: "hand-pump",
      each: 25,
      mlPerS: 1,
      belowMm: 0,
      aboveMm: 1,
      mostMl: 99,
      onlyStanding: true,
    } as const;
    const errors = Array.from({ length: 5000 }, () => {
      const { writtenMl, trueMl } = oneFeeding(habits, 1.1, { feedScale: -0.01, readingMl: 0.9 }, random);
      return (trueMl - writtenMl * 0.99) / (0.05 * 1.1 * 5);
    });
    expectUnitErrors(errors, 5000);
  });
});
