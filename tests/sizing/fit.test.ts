import { describe, expect, test } from "vitest";
import { analyse } from "../../src/analysis/analyse.ts";
import type { Locomotive } from "../../src/logbook/locomotive.ts";
import { fitSentence, fitStrip } from "../../src/sizing/fit-words.ts";
import { modelsOf } from "../../src/sizing/models.ts";
import type { Plan } from "../../src/sizing/plan-schema.ts";
import { runFiguresOf } from "../../src/sizing/run-figures-of.ts";
import { sizeUp } from "../../src/sizing/size.ts";
import type { Sizing } from "../../src/sizing/sizing-schema.ts";
import { sizingText } from "../../src/sizing/sizing-text.ts";
import type { Tank, Tanks } from "../../src/sizing/tanks-schema.ts";
import { smallEngine, smallSteaming } from "../support/small-logbook.ts";
import { exactly, madeRun } from "./made-runs.ts";
import { space } from "./usual-space.ts";

const noPump = smallEngine();
const engine: Locomotive = { ...noPump, handPump: { mlPerStroke: 1 } };
const runs = [4.0, 4.4, 4.2, 4.6, 4.3].map((water, i) => madeRun(i, exactly(water), exactly(1)));
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
const well = (more: object = {}): Tank => ({
  kind: "well",
  length: 60,
  width: 28,
  height: 20,
  plate: 0.7,
  freeboard: 0,
  ...more,
});
/** 30 laps take 144.9 ml at the bound of 95 times in 100. */
function sized(tanks: Tanks, more: Partial<Plan> = {}, of: Locomotive = engine) {
  const plan: Plan = { locomotiveId: of.id, plan: { laps: 30 }, tanks, ...more };
  const { sizing } = sizeUp(of, plan, modelsOf(runs, plan));
  if (sizing.fit === null) throw new Error("nothing was fitted");
  return { sizing, fit: sizing.fit, text: sizingText(of, plan, sizing) };
}
const codes = ({ warnings }: Sizing) => warnings.map(({ code }) => code);
const warned = ({ warnings }: Sizing, code: string) => warnings.find((one) => one.code === code)?.text ?? "";

describe("an engine that nothing can feed in steam", () => {
  test("is never told that tanks are enough which she cannot draw on", () => {
    const { sizing, fit, text } = sized({ space, water: [side({ length: 300 })] }, {}, noPump);
    expect(fit.usableMl).toBeGreaterThan(fit.waterMl);
    expect(fit).toMatchObject({ enough: false, drawable: false, needed: true });
    for (const words of [fitSentence(fit), fitStrip(fit), text]) expect(words).not.toMatch(/\benough\b/);
    expect(fitSentence(fit)).toContain("no pump");
    expect(codes(sizing)).not.toContain("tanks-short");
  });

  test("is warned that the run outlasts her boiler, with how many laps that is good for", () => {
    const { sizing, fit } = sized({ space, water: [side()] }, {}, noPump);
    const { waterSuffices } = sizing.endurance;
    expect(waterSuffices).not.toBeNull();
    expect(waterSuffices ?? 1).toBeLessThan(0.95);
    // segments of the 50 mm round up to 18 and 40 mm: 1047.5 mm2 x 120 = 125.7 ml, read hot; at 3 bar water has swollen
    // by 1.0837/1.0018 (Babcock & Wilcox, Steam, 35th ed. 1919, Table 11): 116.2 ml cold; x 0.9982 / 4.8222 g a lap: 24
    expect(warned(sizing, "boiler-too-small")).toContain("95 times in 100 it is good for 24 laps");
    expect(fit.short).toMatchObject({ closers: [], ofPlan: 6 });
    expect(fit.short?.words).toContain("a run of 24 laps (6 fewer) would do, or a pump");
  });

  test("is told that no tank is needed where the boiler's own water lasts the run", () => {
    const { sizing, fit } = sized({ space, water: [side()] }, { plan: { laps: 20 } }, noPump);
    expect(fit).toMatchObject({ needed: false, short: null });
    expect(fitSentence(fit)).toMatch(/^No tank is needed: the boiler's own 116 ml last the run/);
    expect(codes(sizing)).not.toContain("boiler-too-small");
  });

  test("the warning is there without any tank, and goes with a pump", () => {
    const plan: Plan = { locomotiveId: engine.id, plan: { laps: 30 } };
    expect(codes(sizeUp(noPump, plan, modelsOf(runs, plan)).sizing)).toContain("boiler-too-small");
    expect(codes(sizeUp(engine, plan, modelsOf(runs, plan)).sizing)).not.toContain("boiler-too-small");
  });

  test("is judged by what was seen to feed her: an injector draws on the tanks, a bottle does not", () => {
    const tanks = { space, water: [side({ length: 300 })] };
    const plan: Plan = { locomotiveId: noPump.id, plan: { laps: 30 }, tanks };
    const seen = (fedInSteam: "injector" | "axle-pump" | "bottle") => {
      const [first, ...others] = runs;
      if (first === undefined) throw new Error("there is no run");
      const told = [{ ...first, fedInSteam }, ...others];
      return sizeUp(noPump, plan, modelsOf(told, plan)).sizing;
    };
    for (const by of ["injector", "axle-pump"] as const) {
      expect(seen(by).fit).toMatchObject({ enough: true, drawable: true });
      expect(codes(seen(by))).not.toContain("no-feed-under-pressure");
      // an axle pump alone does nothing while she stands
      expect(codes(seen(by)).includes("no-hand-pump")).toBe(by === "axle-pump");
    }
    const bottled = seen("bottle");
    expect(bottled.fit).toMatchObject({ enough: false, drawable: false });
    expect(warned(bottled, "no-feed-under-pressure")).toContain("Nothing but a bottle can feed this boiler");
    expect(warned(bottled, "boiler-too-small")).toContain("fill up from the bottle or stop in time");
  });

  test("a feed while running is seen in her log, one before it by a bottle is not", () => {
    const log = (by: "bottle" | "injector" | "hand-pump", atS: number) => {
      const steaming = smallSteaming();
      const entries = [...steaming.entries, { kind: "feed" as const, ml: 20, by, atS }].sort(
        (a, b) => a.atS - b.atS,
      );
      return runFiguresOf(analyse(noPump, { ...steaming, entries })).fedInSteam;
    };
    expect(log("bottle", 30)).toBeUndefined();
    expect(log("bottle", 300)).toBe("bottle");
    expect(log("hand-pump", 300)).toBe("hand-pump");
    expect(log("injector", 300)).toBe("injector");
  });

  test("no size is looked for of a tank that she cannot draw on, and none is named as needed", () => {
    const solve = { tank: 0, dimension: "length" as const, atMost: 400 };
    const { fit, sizing, text } = sized({ space, water: [side()], solve }, {}, noPump);
    expect(fit.solved).toMatchObject({ mm: null, needed: true, why: expect.stringContaining("no pump") });
    expect(sizing.tanks[0]?.lengthMm).toBe(120);
    expect(text).toMatch(/Tank needed +none helps: nothing can bring/);
    const dry = sized({ space, water: [side()] }, { allowanceMl: 200 }, noPump).fit.short?.words;
    expect(dry).toContain("no shorter run would do, only a pump");
  });

  test("what is blown off is not there to boil", () => {
    const lasts = (allowanceMl: number) =>
      sized({ space, water: [side()] }, { allowanceMl }, noPump).sizing.endurance.waterLasts.value ??
      Number.NaN;
    expect(lasts(0) - lasts(20)).toBeCloseTo((20 * 0.998207) / 4.3, 6);
  });
});

describe("a tank that is not needed", () => {
  const solve = { tank: 1, dimension: "length" as const, atMost: 100 };

  test("is said to be so, is not cut, and nothing is worth a millimetre of it", () => {
    const { sizing, fit, text } = sized({ space, water: [side({ length: 250 }), well()], solve });
    expect(fit).toMatchObject({ enough: true, solved: { mm: null, needed: false } });
    expect(fit.solved?.why).toMatch(/^not needed: the other tanks hold 21\d ml/);
    expect(sizing.tanks.map(({ name, usable }) => [name, usable.value === null])).toEqual([
      ["side tanks", false],
      ["well tank", true],
    ]);
    expect(sizing.cutting.filter(({ name }) => name.includes("well"))).toEqual([]);
    expect(fit.sensitivity.filter(({ dimension }) => dimension.includes("well"))).toEqual([]);
    expect(codes(sizing)).toContain("tank-not-needed");
    expect(codes(sizing)).not.toContain("no-such-tank");
    expect(text).toContain("without the well tank");
  });

  test("no tank at all is needed where the boiler gives all of it", () => {
    // 20 laps take 96.6 ml of the 116 between her levels
    const given = { fromBoilerMl: 110, plan: { laps: 20 } };
    const { fit } = sized({ space, water: [side()] }, given);
    expect(fit).toMatchObject({ needed: false, waterMl: 0, short: null });
    const { fit: solved } = sized(
      { space, water: [side()], solve: { tank: 0, dimension: "length", atMost: 100 } },
      given,
    );
    expect(solved.solved).toMatchObject({ mm: null, needed: false });
  });

  test("a tank that is just needed is the least to a tenth, and its slopes are those of a tank", () => {
    const { fit } = sized({ space, water: [side({ length: 167 }), well()], solve });
    const mm = fit.solved?.mm ?? Number.NaN;
    expect(fit.enough).toBe(true);
    const { fit: less } = sized({ space, water: [side({ length: 167 }), well({ length: mm - 0.1 })] });
    expect(less.enough).toBe(false);
    const worth = fit.sensitivity.find(({ dimension }) => dimension === "well tank: length")?.mlPerMm;
    // 26.6 x 18.6 mm across
    expect(worth).toBeCloseTo(0.49476, 4);
  });

  test("a slope is taken from the side on which the tank can be made", () => {
    // inside from 28.2 to 28.90005 - 0.7: one hair less of gauge, or more of clearance, and there is no tank
    const tight = { ...space, loadingGauge: 57.8001 };
    const { fit } = sized({ space: tight, water: [side()] });
    const worth = fit.sensitivity.find(({ dimension }) => dimension.startsWith("loading gauge"))?.mlPerMm;
    expect(worth).toBeCloseTo((118.6 * 27) / 1000, 2);
    const clearance = fit.sensitivity.find(({ dimension }) => dimension.startsWith("clearance"))?.mlPerMm;
    expect(clearance).toBeCloseTo((-2 * 118.6 * 27) / 1000, 2);
  });
});

describe("what would close a gap", () => {
  test("no run is shortened to nothing: where reserve and allowance alone are too much, laps are not offered", () => {
    const { fit } = sized({ space, water: [well()] }, { plan: { laps: 2 }, reserveMl: 400 });
    expect(fit.short?.ofPlan).toBeNull();
    expect(fit.short?.words).not.toContain("a run of");
    expect(fit.short?.words).toMatch(/^\d+ ml short: another tank/);
  });

  test("the shorter run that is offered is enough, and one lap more is not", () => {
    const tanks = { space, water: [side({ length: 120 })] };
    const { fit } = sized(tanks);
    const laps = Number(/a run of (\d+) laps/.exec(fit.short?.words ?? "")?.[1]);
    expect(laps).toBeGreaterThan(0);
    expect(fit.short?.ofPlan).toBe(30 - laps);
    expect(sized(tanks, { plan: { laps } }).fit.enough).toBe(true);
    expect(sized(tanks, { plan: { laps: laps + 1 } }).fit.enough).toBe(false);
  });

  test("every dimension that is offered does it alone, a tenth less does not, and none more than doubles", () => {
    const tanks = (more: object, inSpace: object = {}): Tanks => ({
      space: { ...space, platework: 2, ...inSpace },
      water: [side({ length: 180, ...more })],
    });
    const { fit } = sized(tanks({}));
    const closers = fit.short?.closers ?? [];
    expect(closers.map(({ dimension }) => dimension).sort()).toEqual([
      "height",
      "height of its underside",
      "lagging",
      "length",
      "platework outside the tanks",
    ]);
    for (const { dimension, byMm } of closers) {
      const tried = (mm: number) => {
        const ways: Record<string, () => Tanks> = {
          length: () => tanks({ length: 180 + mm }),
          height: () => tanks({ height: 31.4 + mm }),
          "height of its underside": () => tanks({ base: -10 + mm }),
          lagging: () => tanks({}, { lagging: 1 - mm }),
          "platework outside the tanks": () => tanks({}, { platework: 2 - mm }),
        };
        return ways[dimension]?.();
      };
      const [does, not] = [tried(byMm), tried(byMm - 0.1)];
      if (does === undefined || not === undefined) throw new Error(dimension);
      expect([dimension, sized(does).fit.enough, sized(not).fit.enough]).toEqual([dimension, true, false]);
    }
    expect(closers.filter(({ dimension, byMm }) => dimension === "length" && byMm > 180)).toEqual([]);
  });

  test("what would have to be more than doubled is not offered", () => {
    // 26.6 x 18.6 mm across need 293 mm of length; 58.6 mm long need 92 mm of height or 134 mm of width
    expect(sized({ space, water: [well()] }).fit.short?.closers).toEqual([]);
    const near = sized({ space, water: [well({ length: 160 })] }).fit.short?.closers ?? [];
    expect(near.map(({ dimension }) => dimension)).toEqual(["height", "width", "length"]);
  });

  test("the free dimension is never offered beyond what it may become", () => {
    const solve = { tank: 0, dimension: "length" as const, atMost: 100 };
    const { fit } = sized({ space, water: [side()], solve });
    expect(fit.solved).toMatchObject({ mm: null, needed: true });
    expect(fit.short?.closers.map(({ dimension }) => dimension)).not.toContain("length");
    expect(fitSentence(fit)).toContain("even at 100.0 mm, the most allowed".replace(/^e/, "E"));
  });

  test("a pair without room is given what makes room: less under it, a higher place, or at last a wider gauge", () => {
    const narrow = { ...space, lagging: 3, clearance: 2, loadingGauge: 62 };
    const { sizing, fit } = sized({ space: narrow, water: [side({ length: 190 })] }, { plan: { laps: 3 } });
    expect(fit.enough).toBe(false);
    expect(codes(sizing)).toContain("no-such-tank");
    const closers = fit.short?.closers ?? [];
    expect(closers.map(({ dimension }) => dimension)).toEqual(
      expect.arrayContaining(["lagging", "height of its underside"]),
    );
    const lagging = closers.find(({ dimension }) => dimension === "lagging");
    expect(lagging).toMatchObject({ tank: null, change: "less" });
    const thinner = { ...narrow, lagging: 3 - (lagging?.byMm ?? 0) };
    expect(sized({ space: thinner, water: [side({ length: 190 })] }, { plan: { laps: 3 } }).fit.enough).toBe(
      true,
    );
    const bare = { ...space, lagging: 0, clearance: 0.5, loadingGauge: 50 };
    const low = side({ height: 12 });
    const { fit: last } = sized({ space: bare, water: [low] }, { plan: { laps: 1 } });
    // face at 26, inside from 26.7; 4.8306 ml over 118.6 x 7.6 mm twice are 2.68 mm: 58.8 of gauge and not 58.7
    expect(last.short?.closers).toEqual([
      { tank: null, dimension: "loading gauge, whole width", change: "more", byMm: 10.2 },
    ]);
  });
});

describe("tanks that cannot be", () => {
  test("are not enough though the others would hold it all", () => {
    const { sizing, fit, text } = sized({ space, water: [side({ length: 300 }), well({ height: 1 })] });
    expect(fit.usableMl).toBeGreaterThan(fit.waterMl);
    expect(fit).toMatchObject({ enough: false, short: null });
    expect(fit.why).toContain("the well tank cannot be made so: the plates leave no height");
    expect(codes(sizing)).toContain("no-such-tank");
    expect(text).toContain("Not enough as it stands");
    expect(fitStrip(fit)).not.toContain("enough");
  });

  test("an unknown boiler is asked for, and no number is made of it", () => {
    const { boilerOuterDiameter: _, ...unknown } = space;
    const { sizing, fit } = sized({ space: unknown, water: [side()] });
    expect(fit).toMatchObject({ enough: false, short: null });
    expect(warned(sizing, "tank-not-known")).toBe(
      "What the side tanks would hold cannot be told: give the boiler's outside diameter, with the space or with the engine.",
    );
    expect(codes(sizing)).not.toContain("no-such-tank");
    expect(fitSentence(fit)).not.toMatch(/short|\d+ ml/);
  });

  test.each([
    [
      { cutOuts: [{ along: 0, length: 300, up: 0, height: 5 }] },
      "a cut-out of 300.0 mm by 5.0 mm is larger than the inside",
    ],
    [{ cutOuts: [{ along: 100, length: 30, up: 0, height: 5 }] }, "a cut-out reaches out of the inside"],
    [
      { length: 101.4, cutOuts: [{ along: 0, length: 100, up: 0, height: 30 }] },
      "the cut-outs take up all the room",
    ],
    [
      { length: 101.4, freeboard: 5, deadDepth: 5, cutOuts: [{ along: 0, length: 100, up: 5, height: 20 }] },
      "leave nothing between dead depth and freeboard",
    ],
    [{ pumpBodyMl: 400 }, "pump and pipes take up 400.0 ml, and there is room for"],
  ])("%j: %s", (more, why) => {
    expect(sized({ space, water: [side(more)] }).fit.why).toContain(why);
  });

  test("two tanks of a kind are told apart", () => {
    const { sizing, fit } = sized({ space, water: [well(), well({ length: 40 }), side({ name: "flanks" })] });
    expect(sizing.tanks.map(({ name }) => name)).toEqual(["well tank 1", "well tank 2", "flanks"]);
    const told = fit.sensitivity.map(({ dimension }) => dimension);
    expect(new Set(told).size).toBe(told.length);
  });
});

test("a coal engine is told nothing of a tank of liquid", () => {
  const coal: Locomotive = { ...engine, fuel: { kind: "coal" } };
  const { sizing } = sized({ space, water: [side({ length: 300 })] }, {}, coal);
  expect(sizing.fuel.tankMl).toMatchObject({ value: null, why: expect.stringContaining("weighed") });
  for (const { why } of [sizing.endurance, sizing.endurance.fuelLasts] as { why?: string | null }[]) {
    expect(why ?? "").not.toContain("tank holds");
  }
});
