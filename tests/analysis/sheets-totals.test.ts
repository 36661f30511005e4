import { describe, expect, test } from "vitest";
import { analyse } from "../../src/analysis/analyse.ts";
import type { Entry } from "../../src/logbook/entry.ts";
import type { Locomotive } from "../../src/logbook/locomotive.ts";
import type { Steaming } from "../../src/logbook/steaming.ts";
import type { Figure } from "../../src/quantity/measured.ts";
import { smallEngine, smallSteaming } from "../support/small-logbook.ts";

const lap = (atS: number, count = 1): Entry => ({ kind: "lap", count, atS });
const turns = (atS: number, count: number): Entry => ({ kind: "revolutions", count, atS });
const pressure = (barG: number, atS: number): Entry => ({ kind: "pressure", barG, atS });
const mark = (name: "running" | "standing", atS: number): Entry => ({ kind: "phase", name, atS });
const level = (mm: number, atS: number): Entry => ({ kind: "level", mm, atS });

function worked(entries: Entry[], head: Partial<Steaming> = {}, engine: Partial<Locomotive> = {}) {
  const { track: _, ...untracked } = smallSteaming();
  return analyse({ ...smallEngine(), ...engine }, { ...untracked, ...head, entries });
}
const track = { track: { lapM: 20 } };
const wheel = { drivingWheelMm: 50 };
const why = (figure: Figure | undefined) =>
  figure?.value === null ? figure.why : `a figure: ${figure?.value}`;

describe("totals", () => {
  test("are null where nothing but pressure, air or words were written down", () => {
    const untouched: Entry[] = [
      pressure(2, 0),
      { kind: "temperature", of: "ambient", celsius: 12, atS: 10 },
      { kind: "note", text: "wind", atS: 20 },
    ];
    expect(worked(untouched).totals).toBeNull();
    const traces: Steaming["traces"] = [
      { channel: "temperatureC", startS: 0, everyS: 10, values: [100, 101] },
      { channel: "pressureBarG", startS: 0, everyS: 10, values: [2, 2] },
    ];
    expect(worked([], { traces }).totals).toBeNull();
  });

  test.each<[Entry]>([
    [level(10, 0)],
    [{ kind: "weight", g: 2000, atS: 0 }],
    [{ kind: "fill", ml: 100, atS: 0 }],
    [{ kind: "drained", ml: 50, atS: 0 }],
    [{ kind: "feed", by: "bottle", ml: 50, atS: 0 }],
    [{ kind: "fuel", action: "added", g: 20, atS: 0 }],
    [lap(0)],
    [turns(0, 10)],
  ])("are touched by %j alone", (entry) => {
    expect(worked([entry]).totals).not.toBeNull();
  });

  test.each(["levelMm", "massG"] as const)("are touched by samples of %s alone, beside others", (channel) => {
    const traces: Steaming["traces"] = [
      { channel: "pressureBarG", startS: 0, everyS: 10, values: [2, 2] },
      { channel, startS: 0, everyS: 10, values: [20, 19] },
    ];
    expect(worked([], { traces }).totals).not.toBeNull();
  });

  test("run from the first reading that fixes the water to the last, which need not be those of the log", () => {
    const { totals } = worked([pressure(3, 0), level(20, 60), level(10, 660), pressure(3, 700)]);
    expect([totals?.fromS, totals?.toS]).toEqual([60, 660]);
    const once = worked([pressure(3, 0), level(20, 60), pressure(3, 700)]).totals;
    expect([once?.fromS, once?.toS]).toEqual([null, null]);
    expect(why(once?.waterDrawn)).toContain("once only");
  });

  test("have all laps, the first entry's and those before the start among them, and all turns", () => {
    const early = worked([lap(-50, 2), pressure(3, 0), lap(100, 3)], track).totals;
    expect(early?.laps).toBe(5);
    expect(early?.distanceM).toBeCloseTo(100, 9);
    // 300 turns of a 50 mm wheel: 300 x pi x 0.05 m
    expect(worked([turns(0, 100), turns(60, 200)], {}, wheel).totals?.distanceM).toBeCloseTo(47.124, 3);
    expect(worked([turns(0, 100)]).totals?.distanceM).toBeNull();
  });

  test("running and in steam are times, and in steam is not told without pressure", () => {
    const entries = [
      mark("running", 0),
      pressure(2, 0),
      lap(50),
      mark("standing", 100),
      mark("running", 300),
      pressure(2, 350),
    ];
    const { totals } = worked(entries);
    expect(totals?.runningS).toBe(150);
    expect(totals?.inSteamS).toBe(350);
    expect(worked([lap(50), lap(100)]).totals?.inSteamS).toBeNull();
    // the dial at nothing from 200 s on: on the line from 2 bar at 0 s it passes 0.05 bar at 195 s
    expect(worked([pressure(2, 0), lap(50), pressure(0, 200), lap(400)]).totals?.inSteamS).toBeCloseTo(
      195,
      6,
    );
  });

  test("in steam counts from the first entry or sample, and not from before it", () => {
    const traces: Steaming["traces"] = [
      { channel: "pressureBarG", startS: 100, everyS: 100, values: [2, 2, 2] },
      { channel: "levelMm", startS: 100, everyS: 100, values: [20, 19, 18] },
    ];
    expect(worked([], { traces }).totals?.inSteamS).toBeCloseTo(200, 9);
    expect(worked([lap(150)], { traces }).totals?.inSteamS).toBeCloseTo(200, 9);
    expect(worked([lap(50)], { traces }).totals?.inSteamS).toBeCloseTo(250, 9);
  });
});

describe("figures of running", () => {
  /** 10 ml of water a millimetre of glass, held at 3 bar. */
  const table: Partial<Locomotive> = {
    boiler: {
      ...smallEngine().boiler,
      shape: {
        kind: "table",
        totalMl: 500,
        points: [
          { levelMm: 0, waterMl: 0 },
          { levelMm: 40, waterMl: 400 },
        ],
      },
    },
    ...wheel,
  };
  const run = [mark("running", 0), pressure(3, 0), level(30, 0), level(20, 600), pressure(3, 600)];
  const of = (more: Entry[], head: Partial<Steaming> = {}) =>
    worked(
      [...run, ...more].sort((a, b) => a.atS - b.atS),
      head,
      table,
    );
  const drawn = of([]).totals?.waterDrawn.value ?? Number.NaN;

  test("are not to be had where she never ran", () => {
    expect(worked([pressure(3, 0), level(20, 0), level(10, 600)])).toMatchObject({
      perLap: null,
      per100m: null,
      perMinuteRunning: null,
    });
  });

  test("of laps that were counted once, no one knows when, say that it is not known when she ran", () => {
    const unknown = { value: null, why: expect.stringContaining("not known when she ran") };
    expect(worked([pressure(3, 0), level(20, 0), lap(300, 8), level(10, 600)], track)).toMatchObject({
      perLap: { water: unknown, fuel: unknown },
      per100m: { water: unknown },
      perMinuteRunning: { water: unknown },
    });
  });

  test("a minute is what was drawn over the minutes run", () => {
    expect(of([]).perMinuteRunning?.water.value).toBeCloseTo(drawn / 10, 6);
  });

  test("a lap and 100 m are what was drawn over laps and over hundreds of metres", () => {
    const { perLap, per100m } = of([lap(300, 4), lap(600, 4)], track);
    expect(perLap?.water.value).toBeCloseTo(drawn / 8, 6);
    expect(per100m?.water.value).toBeCloseTo(drawn / 1.6, 6);
    expect(why(perLap?.fuel)).toContain("no fuel was recorded");
    // what is in doubt of the laps is in doubt of the way
    const oneByOne = of([lap(150), lap(300), lap(450), lap(600)], track).per100m?.water;
    const parts = oneByOne?.value === null ? [] : oneByOne?.parts;
    expect(parts?.map(({ name }) => name)).toContain("laps perhaps not recorded");
  });

  // 400 turns of a 50 mm wheel: 400 x pi x 0.05 m = 62.83 m
  test("100 m by the wheel, with laps of unknown length or none", () => {
    const byWheel = of([turns(300, 200), turns(600, 200)]);
    expect(byWheel.perLap).toBeNull();
    expect(byWheel.per100m?.water.value).toBeCloseTo(drawn / 0.6283185, 4);
    const both = of([lap(300, 4), lap(600, 4), turns(600, 400)]);
    expect(both.perLap?.water.value).toBeCloseTo(drawn / 8, 6);
    expect(both.per100m?.water.value).toBeCloseTo(drawn / 0.6283185, 4);
    // a track of known length, and no lap written down
    expect(of([turns(600, 400)], track).per100m?.water.value).toBeCloseTo(drawn / 0.6283185, 4);
  });

  test("without laps and turns there is neither, and of laps of unknown length no 100 m", () => {
    expect(of([])).toMatchObject({ perLap: null, per100m: null });
    expect(why(of([lap(300, 8)]).per100m?.water)).toContain("length of a lap");
    expect(why(worked([mark("running", 0), lap(300, 8)]).per100m?.water)).toContain("length of a lap");
    expect(why(worked([mark("running", 0), lap(300, 8)], track).per100m?.water)).toContain(
      "nothing was read",
    );
  });

  test("two runs go together", () => {
    const two = of([
      mark("standing", 200),
      mark("running", 400),
      lap(200, 4),
      lap(600, 4),
      turns(200, 200),
      turns(600, 200),
    ]);
    const laps = two.phases.map((phase) => phase.laps);
    expect(laps).toEqual([4, 0, 4]);
    expect(two.per100m?.water.value).toBeCloseTo(((two.perLap?.water.value ?? 0) * 8) / 0.6283185, 4);
    // four of ten minutes running
    expect(two.perMinuteRunning?.water.value).toBeCloseTo(
      ((two.perLap?.water.value ?? 0) * 8) / (400 / 60),
      6,
    );
  });

  test("laps written down before the first run belong to it, and those after a run to that run", () => {
    const { phases } = worked([
      pressure(3, 0),
      mark("standing", 0),
      lap(50, 6),
      mark("running", 100),
      lap(150, 3),
      mark("standing", 200),
      lap(250, 5),
      mark("running", 300),
      lap(350, 2),
      mark("standing", 400),
      lap(450, 4),
    ]);
    expect(phases.map(({ name, laps }) => [name, laps])).toEqual([
      ["standing", 0],
      ["running", 14],
      ["standing", 0],
      ["running", 6],
      ["standing", 0],
    ]);
  });
});
