import { expect, test } from "vitest";
import type { MassReading } from "../../../src/analysis/water/mass-reading.ts";
import { settled } from "../../../src/analysis/water/settled.ts";
import { waterBalance } from "../../../src/analysis/water/water-balance.ts";
import { balanceInput, estimated, reading, STEADY, standingAt } from "./balance-by-hand.ts";

/** A reading of the glass, in doubt by a hundredth of the boiler's volume. */
const glass = (atS: number, grams: number, more: Partial<MassReading> = {}): MassReading =>
  reading(atS, grams, {
    uGrams: 5,
    shared: [{ source: "volume", name: "volume of the boiler", uGrams: 0.01 * grams }],
    ...more,
  });
const columns = (readings: readonly MassReading[]) =>
  settled(
    readings,
    Float64Array.from(readings, ({ grams }) => grams),
  ).map(({ shared }) => shared[0]?.uGrams);

test("readings a little high and low by chance tell nothing of the boiler's volume", () => {
  const readings = Array.from({ length: 20 }, (_, i) =>
    glass(50 * i, 1000 + ([0, 3].includes(i % 4) ? 5 : -5)),
  );
  const standing = estimated(waterBalance(balanceInput(readings), STEADY), standingAt(950));
  expect(Math.abs(standing.value - 1000)).toBeLessThan(0.3);
});

test("what the volume does to a reading is taken from the line between its neighbours", () => {
  expect(columns([glass(0, 1000), glass(50, 985), glass(100, 960)])).toEqual([
    10,
    expect.closeTo(9.8, 9),
    9.6,
  ]);
  expect(columns([glass(0, 1000), glass(25, 985), glass(100, 960)])[1]).toBeCloseTo(9.9, 9);
  expect(columns([glass(50, 1000), glass(50, 985), glass(50, 960)])[1]).toBeCloseTo(9.8, 9);
});

test("but from itself where it is off that by more than it errs, or stands beside a weighing", () => {
  expect(columns([glass(0, 1000), glass(50, 940), glass(100, 960)])[1]).toBeCloseTo(9.4, 9);
  const weighed = glass(100, 960, { of: "whole engine" });
  expect(columns([glass(0, 1000), glass(50, 985), weighed])[1]).toBeCloseTo(9.85, 9);
});
