import fc from "fast-check";
import { expect, test } from "vitest";
import { type Plan, planSchema } from "../../src/sizing/plan-schema.ts";
import { typedProblems } from "../../src/sizing/typed-plan.ts";

const plan = (): Plan => ({
  locomotiveId: "small",
  plan: { laps: 10, trainMassKg: 3 },
  probability: 0.9,
  reserveMl: 3,
  allowanceMl: 0,
  fromBoilerMl: 5,
  usableFraction: 0.8,
  spreadRelative: 0.1,
  tanks: {
    scale: "1:32",
    space: {
      boilerOuterDiameter: 52,
      lagging: 0,
      cleading: 0.3,
      band: 0,
      clearance: 1,
      loadingGauge: "9 ft",
    },
    water: [
      {
        kind: "side-pair",
        length: 80,
        height: "1 in",
        base: -6,
        plate: 0.7,
        freeboard: 2,
        deadDepth: 0,
        cutOuts: [{ along: 0, length: 5, up: 2, height: 4, width: 3 }],
        pipes: [{ diameter: 3, length: 40 }],
        pumpBodyMl: 2,
      },
      { kind: "well", length: 30, width: 20, height: 10 },
    ],
    solve: { tank: 0, dimension: "length", atMost: 100 },
    fuel: { holdsMl: 70, expansionFraction: 0.08 },
    lagging: { conductivityWPerMK: 0.05, ambientC: 15, measuredWith: 0 },
    bendFactor: 0.4,
  },
});

/** Every place of a plan that a field of the bench can change. */
function places(value: unknown, path: (string | number)[] = []): (string | number)[][] {
  if (value === null || typeof value !== "object") return [path];
  return Object.entries(value).flatMap(([key, inner]) =>
    ["locomotiveId", "kind", "dimension", "tank"].includes(key)
      ? []
      : places(inner, [...path, Array.isArray(value) ? Number(key) : key]),
  );
}

function changed(whole: unknown, [step, ...rest]: (string | number)[], to: unknown): unknown {
  if (step === undefined) return to;
  const copy = (Array.isArray(whole) ? [...whole] : { ...(whole as object) }) as Record<
    string | number,
    unknown
  >;
  const next = changed(copy[step], rest, to);
  if (next === undefined) delete copy[step];
  else copy[step] = next;
  return copy;
}

test("what the typing check passes the plan's schema passes, and the other way, at every field and value", () => {
  const values = [
    undefined,
    0,
    -1,
    0.05,
    0.5,
    1,
    7,
    2000,
    2001,
    2e9,
    "",
    "tall",
    "1/2 in",
    "7 ft 6 in",
    "-3 mm",
    "0",
    "6 ft 13 in",
    "99 ft",
    "101 ft",
    "1 in 5 mm",
    "1:32",
    "1:1000",
    "16 mm to the foot",
  ];
  expect(planSchema.safeParse(plan()).success).toBe(true);
  expect(typedProblems(plan())).toEqual([]);
  fc.assert(
    fc.property(fc.constantFrom(...places(plan())), fc.constantFrom(...values), (place, value) => {
      const draft = changed(plan(), place, value);
      const passes = planSchema.safeParse(draft).success;
      expect([place, value, typedProblems(draft).length === 0]).toEqual([place, value, passes]);
    }),
    { numRuns: 1500 },
  );
});

test("a run whose length is not typed yet is asked for it in words, not by the keys of a plan", () => {
  const { laps: _, ...none } = plan().plan;
  expect(typedProblems({ ...plan(), plan: none })).toEqual([
    { path: "plan", came: "nothing", wanted: "how long the run is to be: laps, minutes or metres" },
  ]);
});
