import { describe, expect, test } from "vitest";
import { LEAKS_UNSEEN, type LeakThought, leaksUpTo } from "../../../src/analysis/leaks/leak-thought.ts";
import { rangeOf } from "../../../src/quantity/weighed-ways.ts";
import { steamLeak, waterLeakKgPerS } from "../../../src/steam/leak-flow.ts";
import { saturatedSteam, saturatedWater } from "../../../src/steam/saturation.ts";

const lumps = (leaks: readonly LeakThought[]) => {
  const total = leaks.reduce((sum, { weight }) => sum + weight, 0);
  return leaks.map(({ size, doubt, weight }) => ({ value: size, u: doubt, weight: weight / total }));
};
const mean = (leaks: readonly LeakThought[], of: (leak: LeakThought) => number) =>
  leaks.reduce((sum, leak) => sum + leak.weight * of(leak), 0) /
  leaks.reduce((sum, { weight }) => sum + weight, 0);

describe("what a leak nobody saw is thought to be", () => {
  test("one boiler in ten is tight; of all, two in three between a thirtieth and four fifths, one in ten above 1.3", () => {
    expect(mean(LEAKS_UNSEEN, ({ size }) => (size === 0 ? 1 : 0))).toBeCloseTo(0.1, 9);
    const [low, high] = rangeOf(lumps(LEAKS_UNSEEN), 0, 2 / 3);
    expect(low).toBeGreaterThan(0.025);
    expect(low).toBeLessThan(0.04);
    expect(high).toBeGreaterThan(0.75);
    expect(high).toBeLessThan(0.9);
    const [, seldom] = rangeOf(lumps(LEAKS_UNSEEN), 0, 0.8);
    expect(seldom).toBeGreaterThan(1.2);
    expect(seldom).toBeLessThan(1.4);
  });

  test("never below none, but for one in a hundred that the normals of its sizes leave there", () => {
    const leaking = LEAKS_UNSEEN.filter(({ size }) => size > 0);
    expect(rangeOf(lumps(leaking), 0, 0.98)[0]).toBeGreaterThan(0);
  });

  test("of both more often than of one, and the larger the more likely of water", () => {
    const ofWater = (leaks: readonly LeakThought[]) => mean(leaks, ({ steam }) => (steam === 0 ? 1 : 0));
    const leaking = LEAKS_UNSEEN.filter(({ size }) => size > 0);
    expect(mean(leaking, ({ steam }) => (steam === 0.5 ? 1 : 0))).toBeCloseTo(0.45, 1);
    const [small, large] = [leaking.filter(({ size }) => size < 0.1), leaking.filter(({ size }) => size > 1)];
    expect(ofWater(large)).toBeGreaterThan(2 * ofWater(small));
    expect(ofWater(leaksUpTo(0.5))).toBeCloseTo(0.25, 9);
  });

  test.each([2, 4, 8])("at %i bar a hole passes several times as much boiling water as steam", (barG) => {
    const [insidePa, outsidePa] = [(barG + 1.01325) * 1e5, 101_325];
    const [water, steam] = [saturatedWater(insidePa), saturatedSteam(insidePa)];
    const boilsAtOnce =
      (steam.enthalpyJPerKg - water.enthalpyJPerKg) /
      (steam.volumeM3PerKg - water.volumeM3PerKg) /
      Math.sqrt(water.temperatureK * water.cpJPerKgK);
    const ofSteam = steamLeak(insidePa, outsidePa, 1).massKgPerS;
    expect(boilsAtOnce / ofSteam).toBeGreaterThan(5);
    expect(boilsAtOnce / ofSteam).toBeLessThan(7);
    const boilsLater = waterLeakKgPerS(insidePa - outsidePa, 1 / water.volumeM3PerKg, 1);
    expect(boilsLater / ofSteam).toBeGreaterThan(20);
    expect(boilsLater / ofSteam).toBeLessThan(60);
  });

  // of all the heat an eighth, three, five and seven eighths of 0.8: 0.1 of it beside 0.9 through the surface, and so on
  test("up to a known most of all the heat, any alike likely", () => {
    const leaks = leaksUpTo(0.8);
    const sizes = [0.1 / 0.9, 0.3 / 0.7, 0.5 / 0.5, 0.7 / 0.3];
    expect([...new Set(leaks.map(({ size }) => size))]).toEqual(sizes.map((size) => expect.closeTo(size, 9)));
    for (const size of sizes)
      expect(mean(leaks, (leak) => (Math.abs(leak.size - size) < 1e-9 ? 1 : 0))).toBeCloseTo(0.25, 9);
    // a fifth of all the heat over the root of 12, where half of it leaks: four times as much of what is left
    expect(leaks.find(({ size }) => Math.abs(size - 1) < 1e-9)?.doubt).toBeCloseTo(
      (4 * 0.2) / Math.sqrt(12),
      9,
    );
  });
});
