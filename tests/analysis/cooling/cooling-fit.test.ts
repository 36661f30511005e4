import { describe, expect, test } from "vitest";
import { fittedCooling } from "../../../src/analysis/cooling/cooling-fit.ts";
import type { CoolingModel } from "../../../src/analysis/cooling/cooling-model.ts";
import type { Drop } from "../../../src/analysis/cooling/shut-in-water.ts";
import { type LeakThought, NO_LEAK } from "../../../src/analysis/leaks/leak-thought.ts";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import type { Fuel } from "../../../src/logbook/locomotive.ts";
import { interval, standardUncertainty } from "../../../src/quantity/measured.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

const SECONDS = Array.from({ length: 21 }, (_, i) => 60 * i);
const column = (of: (s: number) => number) => Float64Array.from(SECONDS, of);
const given = (s: number, diesS: number) => 1 - Math.exp(-s / diesS);
/** Loss that slackens by a tenth in 1200 s, 1 W of it the measure 1 at first; latent heat of 2000 J/g. */
const modelOf = (storedJ: (s: number) => number, uJ = 5): CoolingModel => ({
  seconds: column((s) => s),
  storedJ: column(storedJ),
  uJ: column(() => uJ),
  lossMeasures: column(measure),
  perLeakJ: column((s) => (10 * s) / 60),
  perLeakSteamJ: column((s) => (2000 * s) / 60),
  dialJ: () => column(() => 0),
  airJ: () => column(() => 0),
  metalShare: 0.3,
  dyingShare: (diesS) => column((s) => given(s, diesS)),
  workingMeasure: 1,
  workingExcessK: 120,
  meanExcessK: 100,
  latentJPerG: 2000,
});
const measure = (s: number) => s - s ** 2 / 24_000;
const sources = (kind: Fuel["kind"]) => sourcesOf({ ...smallEngine(), fuel: { kind } }, smallSteaming());
const some: LeakThought = { size: 0.5, doubt: 0.2, steam: 1, steamDoubt: 0, weight: 1 };
const dropOf = (leftG: number, uG: number): Drop => ({
  left: { value: leftG, unit: "g", parts: [{ name: "readings", u: uG }] },
  perLeakG: 5,
  uG: 0,
  ifWaterG: 0,
  dialG: 0,
});

// 30 W, thought to be 40, and what a fire of 40 W gives that dies in the time said
describe("loss comes back beside a fire that dies", () => {
  const lossOf = (kind: Fuel["kind"], diesS: number) =>
    fittedCooling(
      sources(kind),
      modelOf((s) => 1e5 - 30 * measure(s) + 2 * 40 * diesS * given(s, diesS)),
      null,
      40,
      [NO_LEAK],
    ).loss;

  test.each<[Fuel["kind"], number[]]>([
    ["coal", [60, 110, 200, 350]],
    ["charcoal", [60, 110, 200, 350]],
    ["other", [10, 30, 90, 200]],
    ["spirit", [10]],
    ["butane", [10]],
  ])("%s in any of its times", (kind, times) => {
    for (const diesS of times) {
      const { figure, left } = lossOf(kind, diesS);
      expect(Math.abs(figure.value - 30)).toBeLessThan(1);
      expect(standardUncertainty(figure)).toBeLessThan(6);
      expect(left).toBeLessThan(0.1);
    }
  });

  test("of a fire that is out at once by next to nothing, and what coals leave in doubt is more", () => {
    const [spirit, other, coal] = [lossOf("spirit", 10), lossOf("other", 10), lossOf("coal", 350)];
    expect(spirit.figure.value).toBeCloseTo(30, 1);
    expect(standardUncertainty(other.figure)).toBeGreaterThan(standardUncertainty(spirit.figure));
    expect(standardUncertainty(coal.figure)).toBeGreaterThan(2 * standardUncertainty(spirit.figure));
  });

  test("glowing on, it does not pass for a boiler that loses less", () => {
    const { figure } = lossOf("coal", 350);
    expect(interval(figure)[0]).toBeLessThan(30);
    expect(interval(figure)[1]).toBeGreaterThan(30);
    expect(lossOf("spirit", 350).figure.value).toBeLessThan(25);
  });
});

describe("readings that tell nothing", () => {
  // a millionth of the heat, read to 1000 J
  const small = (values: Float64Array) => values.map((value) => 1e-6 * value);
  const { lossMeasures, perLeakJ, perLeakSteamJ, ...rest } = modelOf(() => 1e5, 1000);
  const blind: CoolingModel = {
    ...rest,
    lossMeasures: small(lossMeasures),
    perLeakJ: small(perLeakJ),
    perLeakSteamJ: small(perLeakSteamJ),
  };
  const leaks: LeakThought[] = [
    { ...some, weight: 0.25 },
    { ...some, size: 1, weight: 0.75 },
  ];

  // 1 g/min of steam takes 2010 J a minute and counts 2000: of 40 W in both, a leak of half the loss leaves that 40 / 1.5
  test("leave loss and leak what they were thought to be, on the mean of all ways, and all of their doubt", () => {
    const end = 1200;
    const lossOf = (size: number) => 40 / (1 + (size * 0.03 * ((2010 * end) / 60)) / measure(end));
    const { loss, leak } = fittedCooling(sources("coal"), blind, null, 40, leaks);
    expect(loss.figure.value).toBeCloseTo(0.25 * lossOf(0.5) + 0.75 * lossOf(1), 3);
    expect(leak.figure.value).toBeCloseTo(0.03 * (0.25 * 0.5 * lossOf(0.5) + 0.75 * lossOf(1)), 4);
    expect([loss.left, leak.left]).toEqual([expect.closeTo(1, 3), expect.closeTo(1, 3)]);
    expect([loss.figure.unit, leak.figure.unit]).toEqual(["W", "g/min"]);
    const doubtG = 0.03 * 0.2 * Math.sqrt(0.25 * lossOf(0.5) ** 2 + 0.75 * lossOf(1) ** 2);
    expect(leak.figure.parts.find(({ name }) => name === "leak not known")?.u).toBeCloseTo(doubtG, 4);
  });

  // the leak's own doubt d and that it shares with the loss, 2 L: y = 5 g for 1 g/min, so by least squares in the head
  test("and the water that left moves the leak by itself, and the loss as far as both go together", () => {
    const lossW = 40 / (1 + (0.5 * 0.03 * 2010 * 20) / measure(1200));
    const [L, d] = [0.5 * 0.03 * lossW, 0.2 * 0.03 * lossW];
    const u = 1;
    const variance = (10 * L) ** 2 + (5 * d) ** 2 + u ** 2;
    const off = 6 - 5 * L;
    const { loss, leak } = fittedCooling(sources("spirit"), blind, dropOf(6, u), 40, [some]);
    expect(loss.figure.value).toBeCloseTo(lossW + ((2 * lossW * 10 * L) / variance) * off, 3);
    expect(leak.figure.value).toBeCloseTo(L + ((2 * L * 10 * L + d * 5 * d) / variance) * off, 4);
    expect(loss.left).toBeCloseTo(1 - (10 * L) ** 2 / variance, 3);
    const left = (name: string) => leak.figure.parts.find((part) => part.name === name)?.u;
    expect(left("water that left")).toBeCloseTo((u * (20 * L ** 2 + 5 * d ** 2)) / variance, 4);
  });
});
