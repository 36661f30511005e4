import { describe, expect, test } from "vitest";
import type { Locomotive } from "../../src/logbook/locomotive.ts";
import { fitSentence } from "../../src/sizing/fit-words.ts";
import { modelsOf } from "../../src/sizing/models.ts";
import type { Plan } from "../../src/sizing/plan-schema.ts";
import type { RunFigures } from "../../src/sizing/run-figures.ts";
import { sizeUp } from "../../src/sizing/size.ts";
import type { Sizing } from "../../src/sizing/sizing-schema.ts";
import { sizingText } from "../../src/sizing/sizing-text.ts";
import type { Tank } from "../../src/sizing/tanks-schema.ts";
import { smallEngine } from "../support/small-logbook.ts";
import { exactly, madeRun } from "./made-runs.ts";
import { space } from "./usual-space.ts";

const noPump = smallEngine();
const pumped: Locomotive = { ...noPump, handPump: { mlPerStroke: 1 } };
// 4.2 g of water and 1 g of fuel a lap on average, 30 laps take 144.9 ml at the bound of 95 times in 100
const runs = [4.0, 4.4, 4.2, 4.6, 4.3].map((water, i) =>
  madeRun(i, exactly(water), exactly(1), { otherFuel: exactly(10) }),
);
const side = (more: object = {}): Tank => ({
  kind: "side-pair",
  length: 120,
  height: 31.4,
  base: -10,
  plate: 0.7,
  freeboard: 2,
  deadDepth: 1,
  ...more,
});
const well = (more: object = {}): Tank => ({ kind: "well", length: 60, width: 28, height: 20, ...more });

function sized(more: Partial<Plan> = {}, of: Locomotive = pumped, by: readonly RunFigures[] = runs): Sizing {
  const plan: Plan = { locomotiveId: of.id, plan: { laps: 30 }, ...more };
  return sizeUp(of, plan, modelsOf(by, plan)).sizing;
}
const codes = ({ warnings }: Sizing) => warnings.map(({ code }) => code);
const warned = ({ warnings }: Sizing, code: string) => warnings.find((one) => one.code === code)?.text ?? "";
// segments of the 50 mm round up to 18 and 40 mm, over 120 mm: 125.7 ml hot, 116.2 ml cold
const BETWEEN_ML = 116.2;

describe("what the boiler may give", () => {
  test("is no more than lies between its levels, and that it was too much is said", () => {
    const greedy = sized({ fromBoilerMl: 5000, tanks: { space, water: [side()] } });
    expect(greedy.fit?.waterMl).toBeCloseTo(144.93 - BETWEEN_ML, 0);
    expect(greedy.fit?.needed).toBe(true);
    expect(warned(greedy, "boiler-gives-less")).toContain("5000 ml");
    expect(warned(greedy, "boiler-gives-less")).toContain("116 ml");
    const modest = sized({ fromBoilerMl: 116, tanks: { space, water: [side()] } });
    expect(codes(modest)).not.toContain("boiler-gives-less");
    expect(modest.fit?.waterMl).toBeCloseTo(144.93 - 116, 1);
  });
});

describe("an engine that nothing can feed in steam", () => {
  const tanks = { space, water: [side()] };

  test("must have the reserve left over in her boiler", () => {
    // 22 laps take 106.3 ml of 116.2
    const plan = { laps: 22 };
    const within = sized({ plan, reserveMl: 5, tanks }, noPump);
    expect(within.fit).toMatchObject({ enough: true });
    expect(within.fit === null ? "" : fitSentence(within.fit)).toContain(
      "last the run 95 times in 100 and leave 5 ml in reserve",
    );
    const beyond = sized({ plan, reserveMl: 15, tanks }, noPump);
    expect(beyond.fit).toMatchObject({ enough: false });
    expect(beyond.fit?.short?.ml).toBeCloseTo(106.28 + 15 - BETWEEN_ML, 0);
    expect(warned(beyond, "boiler-too-small")).toContain("15 ml in reserve");
  });

  test("is warned that planned tanks cannot be drawn on", () => {
    expect(warned(sized({ tanks }, noPump), "tanks-of-no-use")).toContain("no pump");
    expect(codes(sized({ tanks }, pumped))).not.toContain("tanks-of-no-use");
    expect(codes(sized({}, noPump))).not.toContain("tanks-of-no-use");
  });

  test("is told how often the water is gone first, not how two means compare", () => {
    // 116.2 ml are 27 laps; by then 37 g are burnt
    const withFuel = (grams: number) =>
      sized({ tanks: { ...tanks, fuel: { holdsMl: grams / 0.81 / 0.92 } } }, noPump);
    const even = withFuel(37);
    const first = 1 - (even.endurance.fuelEndsFirst ?? Number.NaN);
    expect(first).toBeGreaterThan(0.2);
    expect(first).toBeLessThan(0.8);
    expect(warned(even, "no-feed-under-pressure")).toContain(
      `in about ${Math.round(100 * first)} of 100 such runs the water is gone first: put in less fuel`,
    );
    const little = warned(withFuel(20), "no-feed-under-pressure");
    expect(little).toContain("the fire ends first in more than 99 of 100 such runs");
    expect(little).not.toContain("put in less");
    const unknown = warned(sized({ tanks }, noPump, [madeRun(0, exactly(4))]), "no-feed-under-pressure");
    expect(unknown).toContain("measure the fuel so that it does");
  });

  test("her water is said to be what lies between the levels, cold, less what is blown off", () => {
    const text = warned(sized({ tanks, allowanceMl: 10 }, noPump), "no-feed-under-pressure");
    expect(text).toContain("106 ml");
    expect(text).toContain("between its levels, reckoned cold, less 10 ml of allowance");
    expect(warned(sized({ tanks }, noPump), "no-feed-under-pressure")).not.toContain("allowance");
  });

  test("a gap of less than a millilitre is told in as fine a step", () => {
    const lapMl = 144.93 / 30;
    const laps = (BETWEEN_ML + 0.3) / lapMl;
    const { fit } = sized({ plan: { laps }, tanks }, noPump);
    const told = /own ([\d.]+) ml .* of the ([\d.]+) ml needed/.exec(fit?.short?.words ?? "");
    const [held, needed] = [Number(told?.[1]), Number(told?.[2])];
    expect(needed - held).toBeGreaterThan(0);
    expect(needed - held).toBeLessThan(1);
  });

  test("whenever the bound is more than she holds it is warned, however the odds are reckoned", () => {
    const few = runs.slice(0, 2);
    for (const laps of [10, 14, 18, 22, 26]) {
      const sizing = sized({ plan: { laps }, tanks }, noPump, few);
      expect([laps, codes(sizing).includes("boiler-too-small")]).toEqual([
        laps,
        sizing.fit?.enough === false,
      ]);
    }
  });
});

describe("a tank that is not known or cannot be made", () => {
  const { boilerOuterDiameter: _, ...unknown } = space;

  test("tells nothing of how long water lasts, with the reason, and raises no warning of it", () => {
    const { endurance, ...rest } = sized({ tanks: { space: unknown, water: [side(), well()] } });
    const why = "what the side tanks would hold cannot be told: give the boiler's outside diameter";
    expect(endurance.waterLasts).toMatchObject({ value: null, why: expect.stringContaining(why) });
    expect(endurance).toMatchObject({ waterSuffices: null, fuelEndsFirst: null });
    expect(endurance.why).toContain(why);
    expect(rest.warnings.map(({ code }) => code)).not.toContain("water-may-end-first");
  });

  test("so the sheet says of which ends first", () => {
    const plan: Plan = {
      locomotiveId: pumped.id,
      plan: { laps: 30 },
      tanks: { space: unknown, water: [side()] },
    };
    const { sizing } = sizeUp(pumped, plan, modelsOf(runs, plan));
    expect(sizingText(pumped, plan, sizing)).toMatch(
      /^Fuel ends before the water\s+not to be had: what the side tanks would hold cannot be told/m,
    );
  });

  test("where none can be made the reason is that, not the runs", () => {
    const { endurance } = sized({ tanks: { space, water: [well({ height: 1 })] } });
    expect(endurance.waterLasts).toMatchObject({
      value: null,
      why: expect.stringContaining("the well tank cannot be made so: the plates leave no height"),
    });
    expect(endurance).toMatchObject({ waterSuffices: null, fuelEndsFirst: null });
    const half = sized({ tanks: { space, water: [side(), well({ height: 1 })] } });
    expect(half.endurance.waterLasts.value).toBeGreaterThan(0);
  });

  test("water that is all blown off is no fault of the runs either", () => {
    const { endurance } = sized({ allowanceMl: 900, tanks: { space, water: [side()] } });
    expect(endurance.waterLasts).toMatchObject({ value: null, why: "there is no water to use" });
  });

  test("two runs too unlike are called too few", () => {
    const two = [2, 6].map((water, i) => madeRun(i, exactly(water), exactly(1)));
    const { endurance } = sized({ tanks: { space, water: [side()] } }, pumped, two);
    expect(endurance.waterLasts).toMatchObject({
      value: null,
      why: "2 runs that differ so much are too few to say how long",
    });
  });

  test("a fuel box without an inside is said to have none", () => {
    const tanks = { space, water: [side()], fuel: { box: { length: 1, width: 1, height: 1 } } };
    const sizing = sized({ tanks });
    const why = "the fuel tank cannot be made so: the plates leave no room";
    expect(sizing.fuel).toMatchObject({ holdsMl: null, fillMl: null, shortMl: null, why });
    expect(sizing.endurance.fuelLasts).toMatchObject({ value: null, why: expect.stringContaining(why) });
    expect(sizing.endurance).toMatchObject({ fuelEndsFirst: null, fuelSuffices: null });
    expect(warned(sizing, "no-such-fuel-tank")).toMatch(/^The fuel tank .* leave no room\.$/);
  });
});

test("a size that was not looked for, as no run tells the demand, is said to stand as it was given", () => {
  const solve = { tank: 0, dimension: "length" as const, atMost: 150 };
  const sizing = sized({ tanks: { space, water: [side()], solve } }, pumped, []);
  expect(sizing.fit).toBeNull();
  expect(warned(sizing, "not-solved")).toBe(
    "The length of the side tanks was not looked for, as nothing tells how much is needed: it stands at 120 mm as it was given.",
  );
  expect(codes(sized({ tanks: { space, water: [side()], solve } }))).not.toContain("not-solved");
});
