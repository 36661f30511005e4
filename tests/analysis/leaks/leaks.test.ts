import { describe, expect, test } from "vitest";
import { randomOf } from "../../../sample-data/simulator/random.ts";
import { caughtOf, leaksOf } from "../../../src/analysis/leaks/leaks.ts";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import type { Entry, EntryOf } from "../../../src/logbook/entry.ts";
import { interval, isMeasured, standardUncertainty } from "../../../src/quantity/measured.ts";
import { smallSteaming } from "../../support/small-logbook.ts";
import { drippingEngine as engine } from "./dripping-engine.ts";

function sourcesAt(barG: number, entries: Entry[], of = engine()) {
  const steaming = {
    ...smallSteaming(),
    conditions: { ambientC: 15, feedC: 15, atmosphereHPa: 1000 },
    entries: [
      { kind: "pressure", barG, atS: 0 } as const,
      ...entries,
      { kind: "pressure", barG, atS: 1000 } as const,
    ],
  };
  return sourcesOf(of, steaming);
}
const dripsAt = (barG: number, entries: Entry[]) => leaksOf(sourcesAt(barG, entries));
const drip = (fitting: string, g: number, overS = 120): EntryOf<"drip"> => ({
  kind: "drip",
  fitting,
  g,
  overS,
  atS: 500,
});
const caughtAt = (barG: number, entry: EntryOf<"drip">) => {
  const caught = caughtOf(sourcesAt(barG, [entry]), entry, 0.1);
  if (!isMeasured(caught)) throw new Error(caught.why);
  return caught;
};
const only = (barG: number, entry: Entry) => {
  const [first] = dripsAt(barG, [entry]) ?? [];
  if (first === undefined || !isMeasured(first.rate) || !isMeasured(first.equivalentHole))
    throw new Error(`no figures: ${JSON.stringify(first)}`);
  return { ...first, rate: first.rate, hole: first.equivalentHole };
};

describe("drips carried to working pressure", () => {
  // 2 g in 2 min at 3 bar g, 4 bar absolute; working 4 bar g is 5 absolute: 1 g/min x 5/4
  test("steam grows with the absolute pressure while choked", () => {
    expect(caughtAt(3, drip("gland", 2)).value).toBeCloseTo(1.25, 9);
  });

  // below the critical ratio: 0.5 bar g is 1.5 absolute, ratio 2/3; share sqrt((2/3 x 1/3)/(0.577 x 0.423)) = 0.9542
  test("unchoked steam by the companion of the choked rule", () => {
    const share = Math.sqrt((2 / 3) * (1 / 3)) / Math.sqrt(0.577 * 0.423);
    expect(caughtAt(0.5, drip("gland", 2)).value).toBeCloseTo(5 / (1.5 * share), 6);
  });

  test("hot water with the root of the gauge pressure", () => {
    expect(caughtAt(1, drip("clack", 2)).value).toBeCloseTo(2, 9); // root of 4/1
  });

  // Napier: 0.5245 kg/h per mm2 per bar. 200 g in 2 min are 125 g/min or 7.5 kg/h at 5 bar: 2.86 mm2, a hole of 1.908 mm
  test("the equivalent hole of steam by Napier's rule", () => {
    const area = 7.5 / (0.5245 * 5);
    expect(only(3, drip("gland", 200)).hole.value).toBeCloseTo(Math.sqrt((4 * area) / Math.PI), 3);
  });

  // water at 5 bar absolute, 151.84 °C: 915.3 kg/m3; root(2 x 915.3 x 4e5) = 27060 kg/m2/s; 200 g/min
  test("the equivalent hole of water by Bernoulli", () => {
    const area = 200 / 60_000 / Math.sqrt(2 * 915.3 * 4e5);
    expect(only(1, drip("clack", 200)).hole.value).toBeCloseTo(1000 * Math.sqrt((4 * area) / Math.PI), 4);
  });

  test("u by hand: weighing, reading of the dial and its bias, the bias under its name", () => {
    const rate = caughtAt(3, drip("gland", 2));
    // weighing 0.1 g: 0.05 g/min x 1.25; pressure: rate/4 bar x (0.05 bar, and 0.1 bar of bias)
    expect(standardUncertainty(rate)).toBeCloseTo(
      Math.hypot(0.05 * 1.25, (1.25 / 4) * 0.05, (1.25 / 4) * 0.1),
      4,
    );
    const bias = rate.parts.find((part) => part.source === "dial of small");
    expect(bias?.u).toBeCloseTo((-1.25 / 4) * 0.1, 4);
  });

  test("u of the hole is half as large in proportion", () => {
    const { rate, hole } = only(3, drip("gland", 20));
    const part = (figure: typeof rate) => standardUncertainty(figure) / figure.value;
    expect(part(hole) / part(rate)).toBeCloseTo(0.5, 2);
  });

  test("the range is what the weighing allows; nothing caught is none, not below it", () => {
    const { rate, hole } = only(3, drip("gland", 0));
    expect(rate.value).toBeGreaterThan(0);
    expect(interval(rate)[0]).toBe(0);
    expect(interval(rate)[1]).toBeCloseTo(1.96 * 0.0625, 3);
    expect(interval(hole)[1]).toBeGreaterThan(0);
  });

  test("a catch of many errors of the weighing is told as it was caught, one of a few as less", () => {
    const told = (g: number) => only(3, drip("gland", g)).rate.value / caughtAt(3, drip("gland", g)).value;
    expect(told(10)).toBeCloseTo(1, 2);
    expect(told(0.2)).toBeLessThan(0.9);
  });

  // a scale of 0.1 g that shows nothing where it would show less; fittings of which one lets out four times what another does
  test("of many fittings caught, those with an empty cup among them, rate and hole are even", () => {
    const random = randomOf(1, "fittings under a cup");
    const misses = Array.from({ length: 300 }, () => {
      const trueGPerMin = 0.1 * 4 ** random.normal();
      const g = Math.max(0, trueGPerMin * (120 / 60) * (4 / 5) + 0.1 * random.normal());
      const { rate, hole } = only(3, drip("gland", g));
      const trueMm = Math.sqrt((4 * 0.06 * trueGPerMin) / (0.5245 * 5) / Math.PI);
      return [
        (rate.value - trueGPerMin) / standardUncertainty(rate),
        (hole.value - trueMm) / standardUncertainty(hole),
      ];
    });
    for (const which of [0, 1]) {
      const mean = misses.reduce((sum, pair) => sum + (pair[which] ?? 0), 0) / misses.length;
      expect(Math.abs(mean)).toBeLessThan(0.1);
    }
  });

  test("what a burner drips stays as it was caught, and has no hole", () => {
    const [first] = dripsAt(3, [drip("burner", 2)]) ?? [];
    expect(first?.rate.value).toBe(1);
    expect(first?.equivalentHole).toEqual({ value: null, why: expect.stringContaining("burner") });
  });

  test("no figure without pressure, and a reason", () => {
    const [first] = dripsAt(0, [drip("gland", 2)]) ?? [];
    expect(first?.rate).toEqual({ value: null, why: "no pressure was on" });
  });

  test("no section without a drip", () => expect(dripsAt(3, [])).toBeNull());
});
