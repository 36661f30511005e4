import { describe, expect, test } from "vitest";
import { randomOf } from "../../sample-data/simulator/random.ts";
import { faultSeason } from "../../sample-data/simulator/seasons/fault-season.ts";
import type { PlantedFault } from "../../sample-data/simulator/seasons/planted-faults.ts";
import { careOf } from "../../src/care/care.ts";
import { engineEffects } from "../../src/care/engine-effect.ts";
import { engineSignals } from "../../src/care/engine-signals.ts";
import { scored } from "../../src/care/indicator-course.ts";
import { indicators } from "../../src/care/indicators.ts";
import { expectedLike } from "../../src/care/like-conditions.ts";
import { outingsOf } from "../../src/care/outings.ts";
import { worseThan } from "../../src/care/worse-than.ts";
import type { Service } from "../../src/logbook/service.ts";
import { seedsFrom } from "../calibration/calibrate.ts";
import { falseAlarms } from "../calibration/care-alarms.ts";
import { recordsOf } from "./season-logbook.ts";

const indicator = (key: string) => {
  const found = indicators.find((one) => one.key === key);
  if (found === undefined) throw new Error(`no indicator ${key}`);
  return found;
};

describe("where to look first, over a service", () => {
  const DAY_MS = 86_400_000;
  const SEED = 7;
  const sick = faultSeason("clack", SEED);
  const laterBy = (fault: PlantedFault | null, days: number) =>
    faultSeason(fault, SEED)
      .steamings.slice(5)
      .map((steaming) => ({
        ...steaming,
        id: `later-${steaming.id}`,
        startedAt: new Date(Date.parse(steaming.startedAt) + days * DAY_MS).toISOString(),
      }));
  const lastMs = Date.parse(sick.steamings.at(-1)?.startedAt ?? "");
  const reSeated: Service = {
    id: "re-seated",
    locomotiveId: sick.locomotive.id,
    fittingId: "clack",
    at: new Date(lastMs + DAY_MS).toISOString(),
    what: "re-seated",
  };
  const names = (steamings: typeof sick.steamings, services: Service[]) =>
    careOf(sick.locomotive, recordsOf(sick.locomotive, steamings), services).suspects.map(({ name }) => name);

  test("a clack that passes is suspected first, and no more once it was re-seated, before any steaming", () => {
    expect(names(sick.steamings, [])[0]).toBe("clack");
    expect(names(sick.steamings, [reSeated])).toEqual([]);
  });

  test("nor is it, or another, when she is sound since", () => {
    const since = laterBy(null, 21);
    for (let count = 1; count <= since.length; count++) {
      expect(names([...sick.steamings, ...since.slice(0, count)], [reSeated])).toEqual([]);
    }
  });

  test("where the signs stay, others are suspected and not the clack for what was before", () => {
    const still = laterBy("clack", 21)
      .slice(0, 1)
      .map((steaming) => ({
        ...steaming,
        // neither caught nor looked at: only the engine's own figures speak
        entries: steaming.entries.filter(({ kind }) => kind !== "drip" && kind !== "look"),
      }));
    const suspects = names([...sick.steamings, ...still], [reSeated]);
    expect(suspects.length).toBeGreaterThan(0);
    expect(suspects).not.toContain("clack");
  });

  test("an engine without a pump has no trouble with one", () => {
    const { axlePump: _, ...without } = sick.locomotive;
    const pumped = faultSeason("pump", SEED);
    const named = (locomotive: typeof without) =>
      careOf(locomotive, recordsOf(locomotive, pumped.steamings), []).suspects.map(({ name }) => name);
    expect(named(pumped.locomotive)).toContain("pump");
    expect(named(without)).not.toContain("pump");
  });
});

describe("like conditions", () => {
  const water = indicator("water-a-lap");
  const at = (value: number, pressure: number, lapS: number) => ({
    value,
    u: 0.1,
    like: "",
    conditions: { pressure: Math.log(pressure), speed: -Math.log(lapS) },
  });
  const usual = [at(5, 3, 40), at(5.1, 3.1, 41), at(4.9, 2.9, 39), at(5, 3, 40)];

  test("a slow lap at low pressure is no sign of a leak, the same water at the usual pace is", () => {
    const slow = worseThan(water, usual, [at(6, 2.6, 52)]);
    const even = worseThan(water, usual, [at(6, 3, 40)]);
    expect(even).toBeGreaterThan(2.5);
    expect(slow).toBeLessThan(1);
  });

  test("the farther from like the conditions are, the wider is what may be expected", () => {
    const conditioned = usual.map(({ value, conditions }) => ({ value, sd: 0.2, conditions }));
    const spread = (lapS: number) =>
      expectedLike(conditioned, at(0, 3, lapS).conditions, water.sways ?? [], 5).sd;
    expect(spread(40)).toBeCloseTo(0.1, 2);
    expect(spread(60)).toBeGreaterThan(2 * spread(40));
  });

  test("the sway itself is learnt: outings at two paces say how the water goes with them", () => {
    const lapSs = [30, 60, 30, 60, 30, 60, 30, 60];
    const conditioned = lapSs.map((lapS) => ({
      value: lapS === 30 ? 4 : 5,
      sd: 0.1,
      conditions: at(0, 3, lapS).conditions,
    }));
    const expected = expectedLike(conditioned, at(0, 3, 60).conditions, water.sways ?? [], 5);
    expect(expected.value).toBeCloseTo(5, 1);
  });

  test("without conditions and with like errors it is the plain mean of those before", () => {
    const plain = [3, 4, 5].map((value) => ({ value, sd: 1, conditions: {} }));
    const expected = expectedLike(plain, {}, [], 1);
    expect(expected.value).toBeCloseTo(4, 6);
    expect(expected.sd).toBeCloseTo(1 / Math.sqrt(3), 6);
  });

  test("heat lost standing is held against the engine's own best, and allows for its luck", () => {
    const loss = indicator("standing-loss");
    const one = (value: number) => ({ value, u: 0, conditions: {} });
    const before = [40, 44, 46, 50].map(one);
    const stray = 0.08 * 45;
    // the lowest of four stands 1.0294 standard deviations below what is usual, with 0.7012 of them for its own
    // spread (Teichroew's table, from memory)
    expect(worseThan(loss, before, [one(45)])).toBeCloseTo(
      (45 - 40 - 1.0294 * stray) / (stray * Math.hypot(1, 0.7012)),
      2,
    );
  });
});

describe("the running sum", () => {
  test("with the engine's own outings for a standard gives false alarms as seldom as is stated", () => {
    for (const { share, most, stated } of falseAlarms(seedsFrom(70_001, 600))) {
      // three standard deviations of such a share above what is stated
      const bound = stated + 3 * Math.sqrt((stated * (1 - stated)) / share.of);
      expect(share.hits / share.of, share.name).toBeLessThan(bound);
      expect(100 * stated).toBeLessThan(most);
    }
  });

  test("scores of outings that do not change are independent and of one size", () => {
    const random = randomOf(8, "scores");
    const reseat = indicator("reseat");
    const pairs: [number, number][] = [];
    for (let engine = 0; engine < 2000; engine++) {
      const points = Array.from({ length: 5 }, () => ({
        value: 3 + 0.08 * random.normal(),
        u: 0,
        like: "",
        conditions: {},
      }));
      const scores = scored(reseat, points).map(({ worseBy }) => worseBy);
      expect(scores.slice(0, 2)).toEqual([null, null]);
      pairs.push([scores[2] ?? 0, scores[3] ?? 0]);
    }
    const mean = (of: (pair: [number, number]) => number) =>
      pairs.reduce((sum, pair) => sum + of(pair), 0) / pairs.length;
    // four standard deviations over 2000 engines
    expect(Math.abs(mean(([a, b]) => a * b))).toBeLessThan(4 / Math.sqrt(2000));
    expect(Math.abs(mean(([, b]) => b * b) - 1)).toBeLessThan(4 * Math.sqrt(2 / 2000));
  });
});

describe("an alarm of the engine's own figures", () => {
  const season = faultSeason("gland", 3);
  const outings = outingsOf(season.locomotive, recordsOf(season.locomotive, season.steamings));
  const [first, last] = [outings[6], outings.at(-1)];
  const gland = season.locomotive.fittings.find(({ kind }) => kind === "gland");
  if (first === undefined || last === undefined || gland === undefined) throw new Error("no season");
  const alarmed = [
    { indicator: indicator("water-a-lap"), points: [], alarmAt: first.steaming.id, sudden: false },
  ];

  test("makes a gland one to watch that was not read since, and is told of one that was", () => {
    expect(engineSignals(gland, alarmed, outings, first.startMs - 1).open).toEqual([
      {
        words: expect.stringMatching(
          /^Water a lap has gone up since 2026-\d\d-\d\d against this engine's own outings before$/,
        ),
        // its own readings would tell more than the water a lap again
        readAgain: null,
      },
    ]);
    expect(engineSignals(gland, alarmed, outings, last.startMs)).toMatchObject({
      open: [],
      answered: [{ words: expect.stringContaining("Water a lap") }],
    });
  });

  test("says nothing of a fitting that the figure does not speak of first", () => {
    const clack = { ...gland, kind: "clack" as const };
    expect(engineSignals(clack, alarmed, outings, 0)).toEqual({ open: [], answered: [] });
  });
});

describe("what a service did to the engine's own figures", () => {
  const water = indicator("water-a-lap");
  const DAY_MS = 86_400_000;
  const point = (day: number, value: number, lapS: number) => ({
    steamingId: `day-${day}`,
    atMs: day * DAY_MS,
    hours: day,
    value,
    u: 0.1,
    like: "",
    conditions: { pressure: Math.log(3), speed: -Math.log(lapS) },
    worseBy: null,
  });
  const effect = (points: ReturnType<typeof point>[], doneDay = 5) =>
    engineEffects([{ indicator: water, points, alarmAt: null, sudden: false }], () => true, {
      fromMs: Number.NEGATIVE_INFINITY,
      atMs: 5 * DAY_MS,
      doneMs: doneDay * DAY_MS,
      toMs: Number.POSITIVE_INFINITY,
    })[0];
  const before = [5, 5.1, 4.9, 5, 5.05].map((value, day) => point(day, value, 40));

  test("is told apart at like pace, and not where slower laps alone would cost as much", () => {
    const more = [6, 6.1, 5.9, 6];
    const even = effect([...before, ...more.map((value, i) => point(5 + i, value, 40))]);
    const slow = effect([...before, ...more.map((value, i) => point(5 + i, value, 50))]);
    expect(even).toMatchObject({ before: 5, after: 4, toldApart: true });
    expect(even?.difference.value).toBeCloseTo(0.99, 2);
    expect(slow?.toldApart).toBe(false);
    expect(Math.abs(slow?.difference.value ?? 1)).toBeLessThan(0.2);
  });

  test("counts no outing that lies within a mending of several services", () => {
    const within = [9, 9.1].map((value, i) => point(5 + i, value, 40));
    const since = [5, 5.1, 4.9].map((value, i) => point(7 + i, value, 40));
    expect(effect([...before, ...within, ...since], 7)).toMatchObject({ after: 3, toldApart: false });
  });
});
