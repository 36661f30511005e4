import { describe, expect, test } from "vitest";
import { leaksOf } from "../../../src/analysis/leaks/leaks.ts";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import { isMeasured, standardUncertainty } from "../../../src/quantity/measured.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

/** 2 g caught in two minutes at a steady pressure under an air of 1 bar. */
function drip(barG: number, fitting: string, instruments: object) {
  const engine = { ...smallEngine(), instruments };
  const pressure = (atS: number) => ({ kind: "pressure" as const, barG, atS });
  const entries = [
    pressure(0),
    { kind: "drip" as const, fitting, g: 2, overS: 120, atS: 500 },
    pressure(1000),
  ];
  const conditions = { ambientC: 15, feedC: 15, atmosphereHPa: 1000 };
  const [found] = leaksOf(sourcesOf(engine, { ...smallSteaming(), conditions, entries })) ?? [];
  if (found === undefined || !isMeasured(found.rate) || !isMeasured(found.equivalentHole))
    throw new Error(JSON.stringify(found));
  return { rate: found.rate, hole: found.equivalentHole };
}

describe("a drip at little pressure", () => {
  // unchoked the flow goes with the root of the gauge pressure: the rate's doubt is half the pressure's, in proportion
  test.each([[0.1], [0.4]])("at %s bar the dial's error counts by half of its part", (barG) => {
    const { rate } = drip(barG, "left-gland", {
      pressureReadingBar: 0,
      pressureBiasBar: 0.02,
      massReadingG: 0,
    });
    const bias = rate.parts.find(({ source }) => source === "dial of small")?.u ?? 0;
    expect(bias / (-0.5 * rate.value * (0.02 / barG))).toBeCloseTo(1, 3);
  });
});

describe("a drip in which nothing is in doubt", () => {
  test("has a rate and a hole without parts, and a range of no width", () => {
    const { rate, hole } = drip(1, "left-gland", {
      pressureReadingBar: 0,
      pressureBiasBar: 0,
      massReadingG: 0,
    });
    // choked at 2 bar absolute; working pressure 3 bar g is 4 absolute
    expect(rate.value).toBeCloseTo(2, 9);
    expect([standardUncertainty(rate), standardUncertainty(hole)]).toEqual([0, 0]);
    expect(hole.range95).toEqual([hole.value, hole.value]);
  });
});

describe("a drip caught while the pressure rose", () => {
  // from 1 bar at 0 s to 3 bar at 1000 s: caught from 380 to 500 s at 1.88 bar g in the mean, 2.88 absolute
  test("was driven by the mean of its own time", () => {
    const pressure = (barG: number, atS: number) => ({ kind: "pressure" as const, barG, atS });
    const caught = { kind: "drip" as const, fitting: "left-gland", g: 2, overS: 120, atS: 500 };
    const conditions = { ambientC: 15, feedC: 15, atmosphereHPa: 1000 };
    const entries = [pressure(1, 0), caught, pressure(3, 1000)];
    const engine = { ...smallEngine(), instruments: { massReadingG: 0 } };
    const [found] = leaksOf(sourcesOf(engine, { ...smallSteaming(), conditions, entries })) ?? [];
    expect(found?.rate.value).toBeCloseTo(4 / 2.88, 6);
  });
});

describe("a drip of a fitting that the engine does not list", () => {
  test("is taken as steam", () => {
    const exactly = { pressureReadingBar: 0, pressureBiasBar: 0, massReadingG: 0 };
    expect(drip(1, "forgotten", exactly)).toEqual(drip(1, "left-gland", exactly));
  });
});
