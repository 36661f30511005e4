import { describe, expect, it } from "vitest";
import { engines } from "../../sample-data/simulator/engines.ts";
import { randomPlan } from "../../sample-data/simulator/random-plan.ts";
import { simulate } from "../../sample-data/simulator/simulate.ts";
import { checkLogbook } from "../../src/logbook/read-logbook.ts";

const seeds = Array.from({ length: 60 }, (_, i) => 1000 + i);
const runs = seeds.map((seed) => ({ seed, ...simulate(randomPlan(seed), seed) }));

describe("steamings drawn by chance", () => {
  it.each(runs)(
    "are logbooks as the format has them, in order of time (seed $seed)",
    ({ locomotive, steaming, truth }) => {
      const logbook = {
        format: "lapwater-logbook",
        version: 1,
        locomotives: [locomotive],
        steamings: [steaming],
        services: [],
      };
      expect(checkLogbook(logbook)).toMatchObject({ ok: true });
      const times = steaming.entries.map((entry) => entry.atS);
      expect(times).toEqual([...times].sort((a, b) => a - b));
      expect(times.at(-1)).toBeLessThanOrEqual(truth.endS);
    },
  );

  it("are of every engine, with and without glass, feed, marks, weighings and traces", () => {
    expect(new Set(runs.map((run) => run.locomotive.id))).toEqual(
      new Set(engines.map((engine) => engine.locomotive.id)),
    );
    const kinds = new Set(runs.flatMap((run) => run.steaming.entries.map((entry) => entry.kind)));
    for (const kind of [
      "level",
      "fill",
      "drained",
      "feed",
      "weight",
      "phase",
      "lap",
      "bypass",
      "blower",
      "valve",
    ]) {
      expect(kinds).toContain(kind);
    }
    expect(runs.some((run) => run.steaming.traces !== undefined)).toBe(true);
    expect(runs.some((run) => run.steaming.entries.every((entry) => entry.kind !== "level"))).toBe(true);
  });

  it("count laps that were run: never more than were completed, and seldom fewer", () => {
    const counted = runs.flatMap(({ steaming, truth }) => {
      const laps = steaming.entries.filter((entry) => entry.kind === "lap");
      const written = laps.reduce((total, lap) => total + lap.count, 0);
      return laps.length === 0 ? [] : [{ written, true: truth.lapTimesS.length }];
    });
    expect(counted.length).toBeGreaterThan(20);
    for (const { written, true: laps } of counted) expect(written).toBeLessThanOrEqual(laps);
    const all = (pick: (one: { written: number; true: number }) => number) =>
      counted.reduce((total, one) => total + pick(one), 0);
    expect(all((one) => one.written)).toBeGreaterThan(0.9 * all((one) => one.true));
  });

  it("keep within what such engines do: pressures, rates, efficiency", () => {
    for (const { truth, locomotive } of runs) {
      expect(truth.safetyValve.highestBarG).toBeLessThan(1.25 * locomotive.workingPressureBarG);
      expect(truth.phases.length).toBeGreaterThan(1);
      for (const phase of truth.phases) expect(phase.toS).toBeGreaterThan(phase.fromS);
    }
  });
});
