import { describe, expect, test } from "vitest";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import {
  demandEffects,
  pumpingStretches,
  unmeasuredPumping,
} from "../../../src/analysis/water/demand-effects.ts";
import { strayCovariance } from "../../../src/analysis/water/demand-wander.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";
import { bar, bypass, fire, phase, regulator } from "./water-log.ts";

const sourcesWith = (entries: Entry[], engine: Partial<Locomotive> = {}) =>
  sourcesOf(
    { ...smallEngine(), ...engine },
    { ...smallSteaming(), entries: entries.sort((a, b) => a.atS - b.atS) },
  );
const effectsWith = (entries: Entry[]) => {
  const { timeline, phases, pressure } = sourcesWith(entries);
  return demandEffects(timeline, phases, pressure, (atS) => atS).map(({ name, within, prior }) => [
    name,
    within,
    prior,
  ]);
};

describe("what is drawn in each part of a steaming, beforehand", () => {
  // none at 0 and 100 s, 1 bar at 300 s, 2 bar at 400 s, where water boils at 99.97, 120.42 and 133.69 °C (IF97): carried back
  const raised = [bar(0, 0), bar(0, 100), bar(1, 300), bar(2, 400)];
  const steamS = expect.closeTo(300 - (100 * 20.45) / 13.27, 0);

  test("nothing before first steam; while raising and shut in only leaks: little", () => {
    expect(
      effectsWith([
        ...raised,
        phase("raising", 0),
        phase("running", 400),
        phase("shut-in", 700),
        bar(1, 900),
      ]),
    ).toEqual([
      ["raising", [[steamS, 400]], 0.3],
      ["shut-in", [[700, 900]], 0.3],
      ["all running", [[400, 700]], 10],
      ["cold cylinders", [[400, 490]], 1],
    ]);
  });

  test("shut in, and without her fire, leaks go by their clock; without pressure by time, for she may drip", () => {
    const clock = (atS: number) => 2 * atS;
    const entries = [
      ...raised,
      phase("standing", 0),
      phase("running", 400),
      phase("shut-in", 700),
      bar(1, 900),
    ];
    const { timeline, phases, pressure } = sourcesWith([...entries, fire("out", 380)]);
    const of = (leaking: (atS: number) => number) =>
      demandEffects(timeline, phases, pressure, leaking).map((effect) => [effect.name, effect.clock]);
    expect(of(clock)).toEqual([
      ["standing", undefined],
      ["standing", clock],
      ["shut-in", clock],
      ["all running", undefined],
      ["cold cylinders", undefined],
    ]);
    expect(of(() => 0)[2]).toEqual(["shut-in", undefined]);
  });

  test("in a hot hold of which nothing says that steam was used leaks go by their clock too, and as open beforehand as by time", () => {
    /** half of it in the first 50 s */
    const leaking = (atS: number) => Math.min(atS - 700, 50) + Math.max(0, atS - 750) / 3;
    const { timeline, phases, pressure } = sourcesWith([...raised, phase("shut-in", 700), bar(1, 900)]);
    const clockOf = (onlyLeaks: boolean) =>
      demandEffects(timeline, phases, pressure, leaking, onlyLeaks).find(({ name }) => name === "shut-in")
        ?.clock;
    const clock = clockOf(true) ?? Number;
    expect(clock(750) - clock(700)).toBeCloseTo(100, 9);
    expect(clock(900) - clock(700)).toBeCloseTo(200, 9);
    expect(clockOf(false)).toBeUndefined();
  });

  test("cylinders are cold where she is said to have run, not where a mark has her stand with the regulator open", () => {
    const names = effectsWith([bar(2, 0), phase("standing", 0), regulator("open", 100), bar(2, 600)]).map(
      ([name]) => name,
    );
    expect(names).toEqual(["standing"]);
  });

  test("a phase that ended before first steam draws nothing at all", () => {
    expect(effectsWith([...raised, phase("standing", 0), phase("raising", 120), bar(2, 500)])).toEqual([
      ["raising", [[steamS, 500]], 5],
    ]);
  });

  test("where she never ran all is open, as nothing tells what is much", () => {
    expect(effectsWith([bar(2, 0), phase("standing", 0), phase("shut-in", 300), bar(2, 600)])).toEqual([
      ["standing", [[0, 300]], 5],
      ["shut-in", [[300, 600]], 5],
    ]);
  });

  test("a fire that goes out as a phase begins or ends does not part it", () => {
    const marks = [
      bar(2, 0),
      phase("standing", 0),
      phase("running", 300),
      phase("standing", 600),
      bar(2, 900),
    ];
    for (const atS of [600, 900])
      expect(effectsWith([...marks, { kind: "fire", state: "out", atS }])).toHaveLength(4);
    expect(effectsWith([...marks, { kind: "fire", state: "lit", atS: 700 }])).toHaveLength(4);
    expect(effectsWith([...marks, { kind: "fire", state: "out", atS: 601 }])).toHaveLength(5);
  });

  test("a regulator open all the time adds nothing, nor does one that was only shut", () => {
    const ran = [bar(2, 0), phase("running", 0), phase("standing", 600), bar(2, 900)];
    const names = (entries: Entry[]) => effectsWith(entries).map(([name]) => name);
    const plain = ["standing", "all running", "cold cylinders"];
    expect(names([...ran, regulator("open", 0), regulator("shut", 600)])).toEqual(plain);
    expect(names([...ran, regulator("shut", 300)])).toEqual(plain.slice(0, 2));
    expect(names([...ran, regulator("open", 100), regulator("shut", 600)])).toContain("regulator shut");
  });
});

describe("when an axle pump feeds", () => {
  const stretchesWith = (entries: Entry[]) => {
    const { timeline, phases } = sourcesWith(entries);
    return pumpingStretches(timeline, phases);
  };
  const ran = [bar(2, 0), phase("standing", 0), phase("running", 300), phase("standing", 600), bar(2, 900)];

  test("under way with the by-pass shut", () => {
    expect(stretchesWith([...ran, bypass("shut", 200), bypass("open", 400)])).toEqual([[300, 400]]);
    expect(stretchesWith([...ran, regulator("open", 350), bypass("shut", 200)])).toEqual([[350, 600]]);
    expect(stretchesWith(ran)).toBeNull();
    expect(stretchesWith([...ran, bypass("open", 200)])).toEqual([]);
  });

  test("where nothing tells when she ran, while she was raised and lit", () => {
    const stood = [bar(2, 0), phase("standing", 0), phase("shut-in", 600), bar(2, 900)];
    expect(stretchesWith([...stood, bypass("shut", 200)])).toEqual([[200, 600]]);
  });

  test("unmeasured, where no feed of it was written and it fed at all", () => {
    const pump = { axlePump: { ramMm: 4, strokeMm: 5, strokesPerRev: 1 } };
    const unmeasured = (entries: Entry[], engine: Partial<Locomotive> = pump) => {
      const { timeline, phases, locomotive } = sourcesWith(entries, engine);
      return unmeasuredPumping(timeline, phases, locomotive);
    };
    const shut = [...ran, bypass("shut", 400)];
    expect(unmeasured(shut)).toEqual([[400, 600]]);
    expect(unmeasured(shut, {})).toBeNull();
    expect(unmeasured([...shut, { kind: "feed", by: "axle-pump", ml: 5, atS: 600 }])).toBeNull();
    expect(unmeasured([...shut, { kind: "feed", by: "bottle", ml: 5, atS: 600 }])).toEqual([[400, 600]]);
    expect(unmeasured([...ran, bypass("shut", 700)])).toBeNull();
    expect(unmeasured(ran)).toBeNull();
  });
});

describe("a demand that wanders", () => {
  test("covariance is that of the integral of a rate whose own covariance is exp(-|s - t|/memory)", () => {
    const [x, y, memoryS] = [70, 110, 40];
    const steps = 800;
    let sum = 0;
    for (let i = 0; i < steps; i++)
      for (let j = 0; j < steps; j++)
        sum += Math.exp(-Math.abs(((i + 0.5) * x) / steps - ((j + 0.5) * y) / steps) / memoryS);
    expect(strayCovariance(x, y, memoryS)).toBeCloseTo((sum * x * y) / steps ** 2, 1);
    expect(strayCovariance(y, x, memoryS)).toBeCloseTo(strayCovariance(x, y, memoryS), 9);
    expect(strayCovariance(0, y, memoryS)).toBeCloseTo(0, 9);
  });

  test("over a time much shorter than the memory it is that of a steady rate, over a longer one that of a random walk", () => {
    expect(strayCovariance(1, 1, 1e4)).toBeCloseTo(1, 3);
    expect(strayCovariance(1e4, 1e4, 1) / 1e4).toBeCloseTo(2, 3);
  });
});
