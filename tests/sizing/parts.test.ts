import { describe, expect, test } from "vitest";
import { boilerMl, feedingOf } from "../../src/sizing/feeding.ts";
import { fillFraction } from "../../src/sizing/fuel-tank.ts";
import { layoutOf } from "../../src/sizing/layout.ts";
import { modelsOf } from "../../src/sizing/models.ts";
import type { Plan } from "../../src/sizing/plan-schema.ts";
import { sizeUp } from "../../src/sizing/size.ts";
import { smallEngine } from "../support/small-logbook.ts";
import { exactly, madeRun } from "./made-runs.ts";
import { smallPlan } from "./small-plan.ts";

const engine = smallEngine();

describe("feeding", () => {
  test("hand-pump strokes are the boiler's water by its own shape over ml a stroke", () => {
    const pumped = { ...engine, handPump: { mlPerStroke: 0.8 } };
    const { handPumpStrokes } = feedingOf(pumped, [], null);
    const { lowestLevelMm, highestLevelMm } = engine.boiler;
    const ml = boilerMl(engine, lowestLevelMm, highestLevelMm);
    expect(handPumpStrokes.lowestToHighest).toMatchObject({ value: expect.closeTo(ml / 0.8, 9), unit: "1" });
    expect(feedingOf(engine, [], null).handPumpStrokes.lowestToHighest).toMatchObject({ value: null });
  });

  test("by-pass return is swept volume x turns x efficiency less the demand", () => {
    const axle = {
      ...engine,
      drivingWheelMm: 50,
      axlePump: { ramMm: 4, strokeMm: 6, strokesPerRev: 1 },
    };
    const run = madeRun(0, exactly(4), exactly(1), { metresPerMinute: 40 });
    const turns = 40_000 / (Math.PI * 50);
    const delivered = 0.6 * (((Math.PI / 4) * 16 * 6) / 1000) * turns;
    const { axlePump } = feedingOf(axle, [run], exactly(5, "ml/min"));
    expect(axlePump.delivers.value).toBeCloseTo(delivered, 9);
    expect(axlePump.returned.value).toBeCloseTo(delivered - 5, 9);
    // the pump's efficiency is anything from next to nothing to all: the range ends at nothing and not below
    expect(axlePump.returned).toMatchObject({ lo95: 0 });
    expect(axlePump.delivers.value === null ? -1 : axlePump.delivers.lo95).toBeGreaterThanOrEqual(0);
    const thirsty = feedingOf(axle, [run], exactly(20, "ml/min")).axlePump.returned;
    expect(thirsty).toMatchObject({ value: null, why: expect.stringContaining("short of the demand") });
  });
});

describe("fuel tanks", () => {
  const plan: Plan = { locomotiveId: engine.id, plan: { laps: 10 } };
  test("spirit leaves 5 to 10 % empty, gas is never above 80 % liquid, coal has no tank", () => {
    const of = (kind: "spirit" | "butane" | "coal", fuel?: object) =>
      fillFraction(
        { ...engine, fuel: { kind } },
        fuel === undefined ? plan : { ...plan, tanks: { water: [], fuel } as never },
      );
    expect(of("spirit")).toBeCloseTo(0.92, 9);
    expect(of("spirit", { expansionFraction: 0.05 })).toBeCloseTo(0.95, 9);
    expect(of("butane")).toBe(0.8);
    expect(of("butane", { liquidFraction: 0.7 })).toBe(0.7);
    expect(of("coal")).toBeNull();
  });
});

describe("endurance", () => {
  test("58 ml of spirit for 60 ml of water and no pump: fuel for about 2.7 times the water, and it says so", () => {
    // published trap: 4.8 g evaporated by 1 g of spirit (0.81 g/ml), so 58 ml carry 2.7 times the 60 ml
    // the glass is read hot: 65 ml swollen by 1.0837/1.0018 at 3 bar (Babcock & Wilcox, Steam, 35th ed. 1919, Table 11) are 60 ml cold
    const perGram = (2.7 * 60 * 0.998207) / (58 * 0.81);
    const shape = {
      kind: "table" as const,
      points: [
        { levelMm: 0, waterMl: 0 },
        { levelMm: 20, waterMl: 65 },
      ],
      totalMl: 90,
    };
    const toy = {
      ...engine,
      boiler: { ...engine.boiler, shape, lowestLevelMm: 0, highestLevelMm: 20 },
      fuel: { kind: "spirit" as const, densityGPerMl: 0.81, tankMl: 58 / 0.92 },
    };
    const runs = [3.9, 4, 4.1].map((water, i) =>
      madeRun(i, exactly(water), exactly(water / perGram), { otherFuel: exactly(0) }),
    );
    const plan: Plan = { locomotiveId: toy.id, plan: { laps: 10 } };
    const { sizing } = sizeUp(toy, plan, modelsOf(runs, plan));
    const warning = sizing.warnings.find(({ code }) => code === "no-feed-under-pressure");
    expect(warning?.text).toContain("the fire must end before the 60 ml");
    expect(warning?.text).toContain(
      "the fuel lasts about 2.7 times as long as the water, and in more than 99 of 100",
    );
    expect(sizing.endurance.fuelEndsFirst).toBeLessThan(0.05);
  });
});

describe("lagging", () => {
  const lagged = (more: Partial<Plan["tanks"]> & object, runs = [madeRun(0, exactly(4))]) => {
    const base = smallPlan();
    const plan = { ...base, tanks: { ...base.tanks, solve: undefined, ...more } } as Plan;
    const { sizing } = sizeUp(engine, plan, modelsOf(runs, plan));
    if (sizing.lagging === null) throw new Error("no lagging was reckoned");
    return sizing.lagging;
  };

  test("more lagging loses less, each half millimetre less than the one before", () => {
    const losses = lagged({})
      .points.filter(({ laggingMm }) => laggingMm > 0)
      .map(({ lossW }) => lossW);
    const steps = losses.slice(1).map((loss, i) => (losses[i] ?? 0) - loss);
    expect(steps.every((step) => step > 0)).toBe(true);
    expect(steps.slice(1).every((step, i) => step < (steps[i] ?? 0))).toBe(true);
  });

  test("without lagging, cleading and bands there is the bare boiler, and half a millimetre saves what it keeps of that", () => {
    const { laggedW, bareW, points, halfMm } = lagged({
      space: { boilerOuterDiameter: 52, loadingGauge: "9 ft", lagging: 0, cleading: 0, band: 0 },
    });
    expect(laggedW).toBe(bareW);
    expect(halfMm.watts).toBeCloseTo(
      bareW - (points.find(({ laggingMm }) => laggingMm === 0.5)?.lossW ?? 0),
      9,
    );
  });

  test("her own hot hold counts though other steamings are chosen, and is called bare only where that was said", () => {
    const hold = madeRun(1, { value: null, why: "it did not run" }, undefined, {
      coolingLoss: { value: 31, u: 2, lo95: 27, hi95: 35, unit: "W" },
    });
    const of = (measuredWith?: number) => {
      const { solve: _, ...tanks } = smallPlan().tanks ?? { water: [] };
      const lagging = measuredWith === undefined ? {} : { lagging: { measuredWith } };
      const plan = { ...smallPlan(), steamings: ["run-0"], tanks: { ...tanks, ...lagging } };
      return sizeUp(engine, plan, modelsOf([madeRun(0, exactly(4)), hold], plan)).sizing.lagging;
    };
    expect(of()?.bareW).toBeCloseTo(31, 9);
    expect(of()?.source).toContain("1 steaming and taken as bare, as it is not said");
    expect(of(0)?.source).toContain("1 steaming bare,");
  });

  test("frost in the shed is air as cold as that, and the feed no colder than water can be", () => {
    const at = (ambientC: number) => lagged({ lagging: { ambientC } });
    expect(at(-40).laggedW).toBeGreaterThan(at(0).laggedW);
    const perWatt = ({ halfMm }: ReturnType<typeof at>) => halfMm.mlPerMinute / halfMm.watts;
    expect(perWatt(at(-1))).toBeCloseTo(perWatt(at(0)), 12);
  });

  test("half a millimetre takes half a millimetre of both tanks' width", () => {
    const { halfMm } = lagged({});
    // inside 80 - 1.4 long, 25.4 - 1.4 - 3 of water high, both sides
    expect(halfMm.tankMl).toBeCloseTo((2 * 0.5 * (80 - 1.4) * (25.4 - 1.4 - 3)) / 1000, 6);
    expect(halfMm.watts).toBeGreaterThan(0);
    expect(halfMm.mlPerMinute / halfMm.watts).toBeCloseTo(60 / 2676 / 0.998207, 3);
  });

  test("the course begins at cleading with nothing under it and has no jump; the bare boiler stands apart", () => {
    const { points, bareW } = lagged({});
    const [first, second, third] = points.map(({ lossW }) => lossW);
    if (first === undefined || second === undefined || third === undefined) throw new Error("no points");
    expect(first - second).toBeLessThan(1.5 * (second - third));
    expect(first - second).toBeGreaterThan(second - third);
    // paint gives off more than dull copper
    expect(first).toBeGreaterThan(bareW);
  });

  test("losses are such as a builder measured: 35 W bare at 2.8 bar, 26 clad in wood, 12 fully wrapped (practice)", () => {
    const plan = { ...smallPlan(), tanks: { ...smallPlan().tanks, solve: undefined } } as Plan;
    const { sizing } = sizeUp({ ...engine, workingPressureBarG: 2.8 }, plan, modelsOf([], plan));
    const { bareW, points } = sizing.lagging ?? { bareW: 0, points: [] };
    expect(bareW).toBeGreaterThan(35 / 1.5);
    expect(bareW).toBeLessThan(35 * 1.5);
    const clad = points.find(({ laggingMm }) => laggingMm === 1.5)?.lossW ?? 0;
    expect(clad / bareW).toBeGreaterThan(26 / 35 / 1.3);
    expect(clad / bareW).toBeLessThan((26 / 35) * 1.3);
    expect((points.at(-1)?.lossW ?? 0) / bareW).toBeGreaterThan(12 / 35);
  });

  test("the range is that of the measured loss: more steamings do not narrow it, straying ones widen it", () => {
    const told = (...losses: number[]) =>
      lagged(
        {},
        losses.map((value, i) =>
          madeRun(i, exactly(4), undefined, {
            coolingLoss: { value, u: 2, lo95: value - 4, hi95: value + 4, unit: "W" },
          }),
        ),
      );
    expect(lagged({}).range95).toBeNull();
    const half = (1.959964 * 2) / 30;
    const even = { low: expect.closeTo(1 - half, 6), high: expect.closeTo(1 + half, 6) };
    expect(told(30).range95).toMatchObject(even);
    expect(told(30, 30, 30).range95).toMatchObject(even);
    // s of 27 and 33 is 4.243, of their mean 3
    expect(told(27, 33).range95?.high).toBeCloseTo(1 + (1.959964 * Math.hypot(2, 3)) / 30, 6);
  });

  test("the engine's own cooling sets the whole curve, and is named as the source", () => {
    const loss = { value: 31, u: 2, lo95: 27, hi95: 35, unit: "W" };
    const own = lagged({}, [madeRun(0, exactly(4), undefined, { coolingLoss: loss })]);
    const handbook = lagged({});
    expect(own.bareW).toBeCloseTo(31, 9);
    expect(own.source).toContain("own cooling, 31 W");
    expect(own.laggedW / own.bareW).toBeCloseTo(handbook.laggedW / handbook.bareW, 9);
    const measured = lagged({ lagging: { measuredWith: 2 } }, [
      madeRun(0, exactly(4), undefined, { coolingLoss: loss }),
    ]);
    expect(measured.points.find(({ laggingMm }) => laggingMm === 2)?.lossW).toBeCloseTo(31, 9);
  });
});

test("a boiler that is smaller outside than inside is questioned", () => {
  const told = (boilerOuterDiameter: number) => {
    const plan = { ...smallPlan(), tanks: { space: { boilerOuterDiameter }, water: [well] } };
    const { warnings } = sizeUp(engine, plan, modelsOf([], plan)).sizing;
    return warnings.find(({ code }) => code === "boiler-outside-too-small")?.text;
  };
  const well = { kind: "well" as const, length: 10, height: 10, width: 10 };
  expect(told(30)).toContain("30 mm outside, and it is 50 mm inside");
  expect(told(52)).toBeUndefined();
});

test("what is given and does not enter is said: chosen steamings without a figure or gone, and the fuel tank's twofold size", () => {
  const hold = madeRun(1, { value: null, why: "no laps were recorded" });
  const warned = (more: Partial<Plan>) => {
    const plan: Plan = { locomotiveId: engine.id, plan: { laps: 10 }, ...more };
    return sizeUp(engine, plan, modelsOf([madeRun(0, exactly(4)), hold], plan)).sizing.warnings;
  };
  const text = (more: Partial<Plan>, code: string) =>
    warned(more).flatMap((one) => (one.code === code ? [one.text] : []));
  expect(text({ steamings: ["run-0", "run-1", "gone"] }, "runs-left-aside")).toEqual([
    "Run 1: chosen, and left aside, as nothing there tells the water a lap.",
  ]);
  expect(text({ steamings: ["run-0", "gone"] }, "runs-not-there")[0]).toContain("One of the runs chosen");
  expect(warned({}).map(({ code }) => code)).not.toContain("runs-left-aside");
  const well = { kind: "well" as const, length: 10, height: 10, width: 10 };
  const box = { length: 50, width: 30, height: 30 };
  const used = (fuel: object) => text({ tanks: { water: [well], fuel } }, "fuel-tank-not-used");
  expect(used({ box, holdsMl: 40, liquidFraction: 0.7, expansionFraction: 0.08 })).toEqual([
    "Given and not used: holdsMl, as the box tells it.",
    "Given and not used: liquidFraction, which is for gas.",
  ]);
  expect(used({ box })).toEqual([]);
});

test("a fuel that no run tells is wanting for the reason that the runs have", () => {
  const plan: Plan = { locomotiveId: engine.id, plan: { laps: 10 } };
  const why = "no laps were recorded";
  const { fuel, warnings } = sizeUp(
    engine,
    plan,
    modelsOf([madeRun(0, exactly(4), { value: null, why })], plan),
  ).sizing;
  expect(fuel.bound).toMatchObject({ value: null, why: expect.stringContaining(why) });
  expect(warnings.find(({ code }) => code === "fuel-not-told")?.text).toContain(why);
});

test("another fuel's tank gives no endurance for a reason of its own, not for want of its size", () => {
  const other = {
    ...engine,
    fuel: { kind: "other" as const, densityGPerMl: 0.7, tankMl: 100, lowerHeatingValueMJPerKg: 30 },
  };
  const plan: Plan = { locomotiveId: engine.id, plan: { laps: 10 } };
  const runs = [4, 4.1].map((water, i) => madeRun(i, exactly(water), exactly(1), { otherFuel: exactly(10) }));
  const { fuelLasts } = sizeUp(other, plan, modelsOf(runs, plan)).sizing.endurance;
  expect(fuelLasts).toMatchObject({
    value: null,
    why: expect.stringContaining("how far it may be filled is not known"),
  });
});

test("an engine's own boiler diameter serves where the plan gives none", () => {
  const tanks = { water: [{ kind: "well" as const, length: 10, height: 10, width: 10 }] };
  expect(layoutOf(tanks, undefined, 51).buildUp.boilerRadiusMm).toBe(25.5);
  expect(layoutOf(tanks, undefined, undefined).buildUp.boilerRadiusMm).toBeNull();
});
