import { describe, expect, test } from "vitest";
import { modelsOf } from "../../src/sizing/models.ts";
import type { Plan } from "../../src/sizing/plan-schema.ts";
import { sizeUp } from "../../src/sizing/size.ts";
import { smallEngine } from "../support/small-logbook.ts";
import { exactly, madeRun } from "./made-runs.ts";

const engine = smallEngine();

/** Runs that draw 2 g a lap and 0.5 more for each kg of train; 9 g where the train was not recorded. */
const sized = (loads: readonly (number | null)[], trainMassKg?: number) => {
  const runs = loads.map((load, i) =>
    madeRun(i, exactly(load === null ? 9 : 2 + load / 2), undefined, { trainMassKg: load }),
  );
  const plan: Plan = {
    locomotiveId: engine.id,
    plan: { laps: 10, ...(trainMassKg === undefined ? {} : { trainMassKg }) },
  };
  const { sizing } = sizeUp(engine, plan, modelsOf(runs, plan));
  const said = (code: string) => sizing.warnings.find((one) => one.code === code)?.text;
  return { sizing, said };
};

describe("the line in the load", () => {
  test("is drawn through five runs of three loads, and a run without a load is left aside and said so", () => {
    const { sizing, said } = sized([4, 4, 5, 6, 6, null], 7);
    expect(sizing.byLoad).toBe(true);
    // 10 laps of 2 + 7/2 g, at 0.998207 g/ml
    expect(sizing.demand.value).toBeCloseTo(55 / 0.998207, 6);
    expect(said("runs-without-load")).toContain("One run has no recorded load and is left aside");
    expect(said("load-not-used")).toBeUndefined();
    // what is left aside is not counted among what the water is read off
    expect(sizing.runs).toHaveLength(5);
    expect(sized([4, 4, 5, 6, 6], 7).said("runs-without-load")).toBeUndefined();
  });

  test.each([
    [[4, 5, 6, 6, null], "there are 4"],
    [[null, null], "there are none"],
    [[4, 4, 6, 6, 6], "the runs have 2"],
    [[5, 5.2, 5.4, 5.6, 5.8], "differ by less than a fifth"],
  ] as const)("loads %j tell none, and the reason is the true one: %s", (loads, why) => {
    const { sizing, said } = sized(loads, 7);
    expect(sizing.byLoad).toBe(false);
    expect(said("load-not-used")).toContain(why);
    expect(said("runs-without-load")).toBeUndefined();
  });

  test("is carried no farther than the loads lie apart, and beyond that there is no figure but a reason", () => {
    const far = sized([4, 4, 5, 6, 6], 8.1).sizing;
    const why = expect.stringContaining("4 to 6 kg: the line is not carried so far");
    expect(far).toMatchObject({
      demand: { value: null, why },
      bound: { value: null, why },
      withMoreRuns: [],
    });
    expect(sized([4, 4, 5, 6, 6], 8).sizing.demand.value).toBeCloseTo(60 / 0.998207, 6);
    expect(sized([4, 4, 5, 6, 6], 1.9).sizing.demand.value).toBeNull();
  });

  test("that comes to nothing at the planned load is no demand, and no tank is then enough", () => {
    // 6 g less 1.5 for each kg: nothing at 4 kg
    const runs = [1, 1, 2, 3, 3].map((load, i) =>
      madeRun(i, exactly(6 - 1.5 * load), exactly(1), { trainMassKg: load, otherFuel: exactly(10) }),
    );
    const at = (trainMassKg: number) => {
      const tanks: Plan["tanks"] = { water: [{ kind: "well", length: 50, width: 30, height: 20 }] };
      const plan: Plan = { locomotiveId: engine.id, plan: { laps: 10, trainMassKg }, tanks };
      return sizeUp({ ...engine, handPump: { mlPerStroke: 1 } }, plan, modelsOf(runs, plan)).sizing;
    };
    expect(at(3).fit?.enough).toBe(true);
    const none = at(4.5);
    expect(none.demand).toMatchObject({ value: null, why: expect.stringContaining("comes to nothing") });
    expect(none.fit).toBeNull();
    expect(none.endurance).toMatchObject({
      waterLasts: { value: null },
      waterSuffices: null,
      fuelEndsFirst: null,
    });
  });

  test("where the runs tell it but no load is planned, it is said that naming one would help", () => {
    expect(sized([4, 4, 5, 6, 6]).said("load-not-named")).toContain("name the load");
    expect(sized([4, 4, 5, 6, 6], 5).said("load-not-named")).toBeUndefined();
    expect(sized([4, 4, 4, 6, 6]).said("load-not-named")).toBeUndefined();
  });
});

test("laps of tracks that differ are not put together without a word, nor warned of where metres are planned", () => {
  const warned = (lapsM: readonly (number | undefined)[], plan: Plan["plan"] = { laps: 10 }) => {
    const runs = lapsM.map((lapM, i) => {
      const run = madeRun(i, exactly(4), undefined, { lapM });
      return { ...run, per: { ...run.per, distanceM: run.per.laps } };
    });
    const whole = { locomotiveId: engine.id, plan };
    const found = sizeUp(engine, whole, modelsOf(runs, whole)).sizing.warnings;
    return found.find(({ code }) => code === "laps-of-several-tracks")?.text;
  };
  expect(warned([18, 18, 60])).toContain("laps from 18 to 60 m");
  expect(warned([18, 18.5, undefined])).toBeUndefined();
  expect(warned([18, 60], { distanceM: 500 })).toBeUndefined();
});

test("a plan shorter than the runs is warned of, one as long is not", () => {
  // made runs are of 30 laps
  const shorter = (laps: number) => {
    const plan: Plan = { locomotiveId: engine.id, plan: { laps } };
    const runs = [4, 4.1, 3.9, 4].map((water, i) => madeRun(i, exactly(water)));
    const found = sizeUp(engine, plan, modelsOf(runs, plan)).sizing.warnings;
    return found.find(({ code }) => code === "shorter-than-the-runs")?.text;
  };
  expect(shorter(26)).toContain("30 laps on average");
  expect(shorter(27)).toBeUndefined();
});

test("why one run promises nothing of more runs is said", () => {
  const { sizing, said } = sized([4]);
  expect(sizing.withMoreRuns).toEqual([]);
  expect(said("one-run")).toContain("how far more runs would bring the bound in cannot be told");
});
