import { describe, expect, test } from "vitest";
import { analyse } from "../../src/analysis/analyse.ts";
import { reportOf } from "../../src/analysis/report.ts";
import type { Entry } from "../../src/logbook/entry.ts";
import type { Locomotive } from "../../src/logbook/locomotive.ts";
import type { Reported } from "../../src/quantity/reported.ts";
import { evenBoiler, smallEngine } from "../support/small-logbook.ts";

/**
 * A share of the fuel's heat is none or all of it at the most, and a pump gives no more than its ram sweeps: the range that a
 * report promises never lies where nothing can, however poorly the instruments are read.
 */
const engine: Locomotive = {
  ...smallEngine(),
  boiler: evenBoiler,
  fuel: { kind: "spirit", lowerHeatingValueMJPerKg: 26 },
  drivingWheelMm: 40,
  axlePump: { ramMm: 4, strokeMm: 5, strokesPerRev: 1 },
};
const SWEPT_ML = (Math.PI * 4 ** 2 * 5) / 4 / 1000;
const report = (entries: readonly Entry[], instruments: Locomotive["instruments"]) =>
  reportOf(
    analyse(
      { ...engine, instruments },
      {
        id: "run",
        locomotiveId: engine.id,
        purpose: "trial",
        startedAt: "2026-05-01T10:00:00+01:00",
        conditions: { ambientC: 18, feedC: 18 },
        track: { lapM: 30 },
        entries: [...entries],
      },
    ),
  );
type Told = Extract<Reported, { u: number }>;
const told = (figure: Reported | undefined): Told => {
  if (figure === undefined || figure.value === null) throw new Error("no figure");
  return figure;
};

describe("the efficiency of the boiler", () => {
  /** Ten minutes over so much spirit, drawing so many millimetres of the glass. */
  const fired = (burntG: number, drawnMm: number): Entry[] => [
    { kind: "level", atS: 0, mm: 40 },
    { kind: "fire", atS: 1, state: "lit" },
    { kind: "fuel", atS: 1, action: "added", g: burntG },
    ...[0, 300, 450, 600].map((atS): Entry => ({ kind: "pressure", atS, barG: atS / 200 })),
    { kind: "fire", atS: 601, state: "out" },
    { kind: "fuel", atS: 602, action: "remaining", g: 0 },
    { kind: "level", atS: 603, mm: 40 - drawnMm },
  ];
  const efficiency = (burntG: number, drawnMm: number, levelReadingMm: number) =>
    told(report(fired(burntG, drawnMm), { levelReadingMm }).heat?.efficiency);

  test("reaches to all of the fuel's heat and no further", () => {
    // as much more fuel as makes it nine tenths
    const high = efficiency((20 * efficiency(20, 8, 4).value) / 0.9, 8, 4);
    expect(high.value).toBeCloseTo(0.9, 1);
    expect(high.value + 1.96 * high.u).toBeGreaterThan(1);
    expect(high.hi95).toBe(1);
    expect(high.lo95).toBeGreaterThan(0);
    expect(high.lo95).toBeLessThan(high.value);
  });

  test("reaches down to none of it and no further", () => {
    const low = efficiency(100, 2, 30);
    expect(low.value).toBeGreaterThan(0);
    expect(low.value - 1.96 * low.u).toBeLessThan(0);
    expect(low.lo95).toBe(0);
  });

  test("is left as it is where the entries make it more than all: that is for the warning to say", () => {
    const beyond = efficiency(5, 8, 4);
    expect(beyond.value).toBeGreaterThan(1);
    expect(beyond.hi95).toBeGreaterThan(beyond.value);
  });
});

describe("the axle pump", () => {
  const LAPS = 12;
  const turns = (30 * LAPS) / (Math.PI * 0.04);
  const pumped = (share: number, feedRelative: number) =>
    report(
      [
        { kind: "regulator", atS: 0, state: "open" },
        { kind: "bypass", atS: 0, state: "shut" },
        ...[0, 300, 600].map((atS): Entry => ({ kind: "pressure", atS, barG: 2 })),
        ...Array.from({ length: 21 }, (_, i): Entry => ({ kind: "level", atS: 30 * i, mm: 30 })),
        ...Array.from({ length: LAPS }, (_, i): Entry => ({ kind: "lap", atS: 50 * (i + 1), count: 1 })),
        { kind: "bypass", atS: 600, state: "open" },
        { kind: "feed", atS: 600, ml: share * SWEPT_ML * turns, by: "axle-pump" },
        { kind: "regulator", atS: 600, state: "shut" },
      ],
      { feedRelative },
    ).pump;

  test("gives no more than its ram sweeps, and a tenth for how that was measured", () => {
    const pump = pumped(0.95, 0.2);
    const share = told(pump?.volumetricEfficiency);
    expect(share.value + 1.96 * share.u).toBeGreaterThan(1.1);
    expect(share.hi95).toBeCloseTo(1.1, 9);
    expect(told(pump?.perRevolution).hi95).toBeCloseTo(1.1 * SWEPT_ML, 9);
  });

  test("gives nothing at the least", () => {
    const pump = pumped(0.2, 0.6);
    for (const figure of [told(pump?.volumetricEfficiency), told(pump?.perRevolution)]) {
      expect(figure.value - 1.96 * figure.u).toBeLessThan(0);
      expect(figure.lo95).toBe(0);
    }
  });
});
