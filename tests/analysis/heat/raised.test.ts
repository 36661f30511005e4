import { describe, expect, test } from "vitest";
import { analyse } from "../../../src/analysis/analyse.ts";
import { energyRise } from "../../../src/analysis/heat/energy-rise.ts";
import { riseToMark } from "../../../src/analysis/heat/rise-to-mark.ts";
import { storedEnergyAt, storedEnergySlope } from "../../../src/analysis/heat/stored-energy.ts";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import { strayGrid } from "../../../src/analysis/water/stray-grid.ts";
import { waterOf } from "../../../src/analysis/water/water.ts";
import { metalHeatCapacityJPerK } from "../../../src/boiler/metal.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import { isMeasured, type Measured } from "../../../src/quantity/measured.ts";
import { saturatedSteam, saturatedWater, saturationPressurePa } from "../../../src/steam/saturation.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

const engine = (pressureBiasBar = 0.05, pressureReadingBar = 0.02) => ({
  ...smallEngine(),
  instruments: { pressureReadingBar, pressureBiasBar },
});
const lit: Entry = { kind: "fire", atS: 0, state: "lit" };
const at = (atS: number, barG: number): Entry => ({ kind: "pressure", atS, barG });
/** gauge of water that boils so hot, °C, by the program's own saturation line (IAPWS R7-97, checked elsewhere) */
const gaugeAt = (celsius: number) => (saturationPressurePa(celsius + 273.15) - 101_325) / 1e5;
/** a rise of 0.1 K a second from 100 °C at 300 s: 3 bar, 143.6 °C, at 736 s */
const risen = (...atS: number[]) => atS.map((s) => at(s, gaugeAt(100 + 0.1 * (s - 300))));
const MARK = gaugeAt(143.6);
const sources = (entries: Entry[], of = engine()) =>
  sourcesOf(of, { ...smallSteaming(), entries: [...entries].sort((a, b) => a.atS - b.atS) });
const met = (entries: Entry[], fromS = 0, untilS = 5000, of = engine()) =>
  riseToMark(sources([lit, at(0, 0), at(280, 0), ...entries], of), MARK, fromS, untilS);

describe("the moment of a mark, in exact figures", () => {
  const steady = risen(400, 460, 520, 580, 640, 700, 760);

  test("between two readings of a steady rise it is where the line meets it", () => {
    expect(met(steady)?.atS).toBeCloseTo(736, 0);
    expect(met(risen(400, 700, 720, 740, 760))?.atS).toBeCloseTo(736, 0);
  });

  // 0.02 bar is 0.19 K at 3 bar, 1.9 s for each reading; the nearest is 4 s off: 0.2 of that for the fire
  test("readings half a minute apart leave seconds, further apart a seventh of the gap", () => {
    const near = met(risen(400, 720, 740, 760))?.uS ?? Number.NaN;
    expect(near).toBeGreaterThan(1);
    expect(near).toBeLessThan(3);
    const wide = met(risen(400, 500, 600, 860))?.uS ?? Number.NaN;
    expect(wide).toBeGreaterThan(0.15 * 260);
    expect(wide).toBeLessThan(0.15 * 260 + 8);
  });

  // the reading that first shows 3 bar is 0.15 too high, and 21 s early: by itself and the one before it was met at 714 s
  test("on a dial that scatters the first reading at the mark, which was high, does not outweigh the rise before it", () => {
    const rise = [610, 625, 640, 655, 670, 685, 700];
    const reached = met([...risen(...rise), at(715, MARK + 0.01)], 0, 5000, engine(0.05, 0.2));
    expect(reached?.atS).toBeGreaterThan(722);
    expect(reached?.atS).toBeLessThan(740);
    // a dial that does not is believed
    const better = met([...risen(...rise), at(715, MARK + 0.01)], 0, 5000, engine(0.05, 0.01));
    expect(better?.atS).toBeLessThan(722);
  });

  // the dial's 0.05 bar is 0.48 K at 3 bar (9.6 K a bar by the steam tables): 4.8 s
  test("a dial that reads high meets it so much sooner", () => {
    const slopeK =
      (0.01 / (saturationPressurePa(143.6 + 273.155) - saturationPressurePa(143.6 + 273.145))) * 1e5;
    expect(met(risen(400, 720, 740, 760))?.dialS).toBeCloseTo((-0.05 * slopeK) / 0.1, 0);
    expect(met(risen(400, 720, 740, 760), 0, 5000, engine(0.1))?.dialS).toBeCloseTo((-0.1 * slopeK) / 0.1, 0);
  });

  test("only what was read between the two moments counts", () => {
    expect(met(steady, 0, 720)).toBeNull();
    expect(met(steady, 0, 760)?.atS).toBeCloseTo(736, 0);
    // from 650 s on there are two readings only
    expect(met(steady, 650, 5000)?.atS).toBeCloseTo(736, 0);
    expect(met(steady, 750, 5000)?.atS).toBe(760);
  });

  test("a first reading at or above it met it then, as far as is known", () => {
    expect(met([at(900, 3.2)], 899)).toEqual({ atS: 900, uS: 0, dialS: 0 });
  });

  test("never reached is null", () => {
    expect(met(risen(400, 500, 600))).toBeNull();
    expect(met([])).toBeNull();
  });

  test("two readings of one moment are one", () => {
    expect(met([...risen(400, 460, 720), at(720, 2.9), ...risen(740, 760)])?.atS).toBeCloseTo(736, 0);
  });
});

describe("a valve that stopped the rise between readings", () => {
  const before = risen(400, 460, 520, 580, 640);
  const sunk = at(900, 0.9 * MARK);

  test("the rise tells when, where the pressure was still up", () => {
    expect(met([...before, sunk])?.atS).toBeCloseTo(736, 0);
    // 96 s beyond the last reading: a fifth of them
    expect(met([...before, sunk])?.uS).toBeGreaterThan(0.2 * 96);
    expect(met([...before, sunk])?.uS).toBeLessThan(0.2 * 96 + 6);
  });

  test("not where it is down to three quarters of it, nor before the line would have met it", () => {
    expect(met([...before, at(900, 0.74 * MARK)])).toBeNull();
    expect(met([...before, at(900, 0.76 * MARK)])?.atS).toBeCloseTo(736, 0);
    expect(met([...risen(400, 460, 520), at(660, 0.76 * MARK)])).toBeNull();
  });

  test("a valve that was seen to lift after it, and then only, leaves it to the readings", () => {
    const lifts = (atS: number): Entry => ({ kind: "valve", atS, state: "lifts" });
    expect(met([...before, sunk, lifts(1200)])?.atS).toBeGreaterThan(1000);
    expect(met([...before, sunk, lifts(1200), at(1190, MARK + 0.02)])?.atS).toBeGreaterThan(1000);
    const reseats: Entry = { kind: "valve", atS: 1200, state: "reseats" };
    expect(met([...before, sunk, reseats])?.atS).toBeCloseTo(736, 0);
  });

  // lifts at about 3.09 bar, 0.8 K above 3 bar: 8 s later than the mark
  test("its lift is a reading of about 1.03 times working pressure, but not beside a logger", () => {
    const lifts: Entry = { kind: "valve", atS: 745, state: "lifts" };
    const by = met([...risen(400, 460), lifts, at(1000, 2.4)]);
    expect(by?.atS).toBeGreaterThan(725);
    expect(by?.atS).toBeLessThan(745);
    expect(met([...risen(400, 460), { ...lifts, state: "reseats" }, at(1000, 1.2)])).toBeNull();
    const logger = {
      channel: "pressureBarG" as const,
      startS: 400,
      everyS: 60,
      values: risen(400, 460).map((e) => (e.kind === "pressure" ? e.barG : 0)),
    };
    const traced = sourcesOf(engine(), {
      ...smallSteaming(),
      entries: [lit, at(0, 0), lifts],
      traces: [logger],
    });
    expect(riseToMark(traced, MARK, 0, 5000)).toBeNull();
  });
});

describe("a wide gap in which the mark was passed", () => {
  test("a valve or a fire turned down may have held it: half way from the pace before to the straight line", () => {
    // at 0.1 K a second from 640 s it is met at 736 s; by the straight line to 780 s, a little above it, at 779 s
    const before = risen(400, 460, 520, 580, 640);
    const far = at(780, MARK + 0.01);
    const line = 640 + (140 * 9.6) / 9.7;
    const half = (736 + line) / 2;
    const found = met([...before, far]);
    expect(Math.abs((found?.atS ?? 0) - half)).toBeLessThan(6);
    expect(found?.uS).toBeGreaterThan((line - 736) / 2 / Math.sqrt(3));
    // seen shut, the fire may have been turned down
    const seen = met([...before, far, { kind: "valve", atS: 1100, state: "lifts" }]);
    expect(Math.abs((seen?.atS ?? 0) - half)).toBeLessThan(6);
  });

  test("the blower turned in between ends the pace before; shut off, it came no faster than by that", () => {
    const before = risen(400, 460, 520, 580, 640);
    const turned: Entry = { kind: "blower", atS: 650, state: "on" };
    const line = 640 + (140 * 9.6) / 9.7;
    expect(Math.abs((met([...before, turned, at(780, MARK + 0.01)])?.atS ?? 0) - line)).toBeLessThan(12);
    const off = met([...before, { ...turned, state: "off" }, at(780, MARK + 0.01)]);
    expect(Math.abs((off?.atS ?? 0) - (736 + line) / 2)).toBeLessThan(6);
    const early: Entry = { ...turned, atS: 390 };
    expect(Math.abs((met([...before, early, at(780, MARK + 0.01)])?.atS ?? 0) - line)).toBeGreaterThan(15);
  });
});

describe("a rise whose pace changes", () => {
  /** °C at seconds */
  const hot = (...points: [atS: number, celsius: number][]) =>
    points.map(([s, celsius]) => at(s, gaugeAt(celsius)));

  test("readings twenty seconds apart: the last minute tells, not the steeper rise before", () => {
    const steep = hot([500, 110], [550, 120], [600, 130]);
    const last = risen(640, 660, 680, 700, 720, 740);
    const found = met([...steep, ...last]);
    expect(Math.abs((found?.atS ?? 0) - 736)).toBeLessThan(0.7);
  });

  test("in a wide gap the pace is that of the last two minutes", () => {
    const steep = hot(
      [340, 113],
      [370, 114.5],
      [400, 116],
      [430, 117.5],
      [460, 119],
      [490, 120.5],
      [520, 122],
    );
    const then = hot([550, 125], [580, 128], [610, 131], [640, 134]);
    const found = met([...steep, ...then, at(780, MARK + 0.01)]);
    const half = (736 + 640 + (140 * 9.6) / 9.7) / 2;
    expect(Math.abs((found?.atS ?? 0) - half)).toBeLessThan(3);
    // a seventh of the gap, and the way to either end as an even chance
    const uS = Math.hypot(0.15 * 140, (half - 736) / Math.sqrt(3));
    expect(found?.uS).toBeGreaterThan(uS - 1);
    expect(found?.uS).toBeLessThan(uS + 5);
  });

  test("one that slackened goes on from the last of it; one that sank begins anew", () => {
    const slack = hot(
      [400, 110],
      [460, 116],
      [520, 122],
      [660, 123],
      [720, 129],
      [780, 135],
      [840, 141],
      [900, 147],
    );
    expect(Math.abs((met(slack)?.atS ?? 0) - 866)).toBeLessThan(3);
    const sank = hot(
      [400, 110],
      [460, 116],
      [520, 122],
      [600, 112],
      [660, 118],
      [720, 124],
      [780, 130],
      [840, 136],
      [900, 142],
      [960, 148],
    );
    expect(Math.abs((met(sank)?.atS ?? 0) - 916)).toBeLessThan(3);
  });

  test("readings that scatter more than their errors leave the moment less sure", () => {
    const steady = hot([700, 140], [710, 141], [720, 142], [730, 143], [740, 144]);
    const scattered = hot([700, 140.35], [710, 140.65], [720, 142.35], [730, 142.65], [740, 144.35]);
    expect(met(scattered)?.uS ?? 0).toBeGreaterThan(1.3 * (met(steady)?.uS ?? Number.NaN));
    expect(met(scattered)?.uS ?? 0).toBeLessThan(3 * (met(steady)?.uS ?? Number.NaN));
  });

  test("the valve's lift counts only between the two moments, whatever else was logged", () => {
    const lifts: Entry = { kind: "valve", atS: 745, state: "lifts" };
    const sunk = at(1000, 2.4);
    const log = [...risen(400, 460), lifts, sunk];
    // before the lift nothing is told
    expect(met(log, 0, 740)).toBeNull();
    expect(met(log, 0, 745)?.atS).toBeGreaterThan(700);
    // it stands among the readings at its own time: a slow rise met later than the pace before told
    expect(met([...risen(400, 460), { ...lifts, atS: 900 }, sunk])?.atS).toBeGreaterThan(780);
    // a lift of the day before the fire was lit is none of this rise
    const earlier: Entry = { kind: "valve", atS: -500, state: "lifts" };
    expect(met([earlier, ...risen(400, 700, 720, 740, 760)])?.atS).toBeCloseTo(736, 0);
    const water = { channel: "levelMm" as const, startS: 0, everyS: 60, values: [20, 20] };
    const traced = sourcesOf(engine(), {
      ...smallSteaming(),
      entries: [lit, at(0, 0), at(280, 0), ...risen(400, 460), lifts, sunk],
      traces: [water],
    });
    expect(riseToMark(traced, MARK, 0, 5000)?.atS).toBeGreaterThan(700);
  });

  test("of several lifts the first tells whether it was seen shut", () => {
    const lifts = (atS: number): Entry => ({ kind: "valve", atS, state: "lifts" });
    const before = risen(400, 460, 520, 580, 640);
    const when = (...more: Entry[]) => met([...before, at(900, 0.9 * MARK), ...more])?.atS;
    expect(when(lifts(1100), lifts(1200))).toBeGreaterThan(900);
    expect(when(lifts(740), lifts(1200))).toBeLessThan(745);
  });
});

describe("raising, as it is reported", () => {
  const glass: Entry[] = [0, 350, 700, 1000].map((atS, i) => ({
    kind: "level",
    atS,
    mm: 20 - (i === 3 ? 1 : 0),
  }));
  const raising = (entries: Entry[], of = engine()) => {
    const sorted = [lit, at(0, 0), at(280, 0), ...glass, ...entries].sort((a, b) => a.atS - b.atS);
    return analyse(of, { ...smallSteaming(), entries: sorted }).raising;
  };
  const measured = (figure: unknown) => figure as Measured;

  test("times are from the lighting, the power over the window from there to the mark", () => {
    const late = risen(400, 460, 720, 740, 760);
    const found = raising(late);
    expect(found?.window?.[0]).toBe(0);
    expect(Math.abs((found?.window?.[1] ?? 0) - 737)).toBeLessThan(2);
    expect(found?.toWorkingPressureS).toBeCloseTo(found?.window?.[1] ?? Number.NaN, 9);
    expect(Math.abs((found?.toFirstSteamS ?? 0) - 310)).toBeLessThan(20);
    const shifted = analyse(engine(), {
      ...smallSteaming(),
      entries: [{ ...lit, atS: 50 }, ...[at(0, 0), at(280, 0), ...glass, ...late]].sort(
        (a, b) => a.atS - b.atS,
      ),
    }).raising;
    expect(shifted?.toWorkingPressureS).toBeCloseTo((found?.toWorkingPressureS ?? 0) - 50, 6);
    expect(shifted?.toFirstSteamS).toBeCloseTo((found?.toFirstSteamS ?? 0) - 50, 6);
    expect(raising([])?.window).toBeNull();
    expect(
      analyse(engine(), { ...smallSteaming(), entries: [at(0, 0), ...glass, ...late] }).raising,
    ).toBeNull();
    expect(
      analyse(engine(), { ...smallSteaming(), entries: [{ ...lit, state: "out" }, at(0, 0), ...late] })
        .raising,
    ).toBeNull();
  });

  // the end's doubt moves the power by its own share of the time
  test("its doubt holds that of the moment and of the dial, each under its name", () => {
    const found = raising(risen(400, 720, 740, 760));
    const power = measured(found?.power);
    expect(isMeasured(power)).toBe(true);
    const endS = found?.window?.[1] ?? Number.NaN;
    const reached = met(risen(400, 720, 740, 760));
    const moment = power.parts.find(({ name }) => name === "moment of working pressure")?.u ?? Number.NaN;
    expect(moment / power.value).toBeGreaterThan((0.7 * (reached?.uS ?? 0)) / endS);
    expect(moment / power.value).toBeLessThan((1.3 * (reached?.uS ?? 0)) / endS);
    const better = measured(raising(risen(400, 720, 740, 760), engine(0.005))?.power);
    const dial = ({ parts }: Measured) => parts.find(({ source }) => source === "dial of small")?.u ?? 0;
    expect(Math.abs(dial(power))).toBeGreaterThan(3 * Math.abs(dial(better)));
  });

  test("steam used before the mark ends it at the highest that was raised by then", () => {
    const open: Entry = { kind: "regulator", atS: 600, state: "open" };
    const found = raising([...risen(400, 500, 590), open, at(625, 2.2), at(640, 2.4), at(760, 2.3)]);
    expect(found?.window).toEqual([0, 625]);
    expect(found?.toWorkingPressureS).toBeNull();
    const power = measured(found?.power);
    expect(power.parts.some(({ name }) => name === "moment of working pressure")).toBe(false);
    // reached in the end all the same
    expect(
      raising([...risen(400, 500, 590), open, at(640, 2.4), at(900, 3.1)])?.toWorkingPressureS,
    ).toBeGreaterThan(640);
  });

  // 0.06 bar, a fiftieth of it, is what the highest shown stands beyond it
  test("nearly shown long before it was told to be met, it was met then", () => {
    const lifts: Entry = { kind: "valve", atS: 1395, state: "lifts" };
    const near = (barG: number) => [
      ...risen(400, 500, 600, 700),
      at(733, barG),
      at(800, barG),
      at(1200, barG + 0.01),
      lifts,
      at(1400, 3.02),
    ];
    expect(raising(near(2.96))?.toWorkingPressureS).toBeLessThan(760);
    expect(raising(near(2.9))?.toWorkingPressureS).toBeGreaterThan(1200);
  });

  // 2.92 bar is within 0.1 of 3: on a dial so good the mark was met at 0.1 K a second, about 736 s
  test("what a poor dial shows within its error long before, was met then", () => {
    const lifts: Entry = { kind: "valve", atS: 1395, state: "lifts" };
    const near = [
      ...risen(400, 500, 600, 700),
      at(731, 2.92),
      at(800, 2.92),
      at(1200, 2.92),
      lifts,
      at(1400, 3.02),
    ];
    expect(raising(near, engine(0.05, 0.02))?.toWorkingPressureS).toBeGreaterThan(1200);
    expect(raising(near, engine(0.05, 0.1))?.toWorkingPressureS).toBeLessThan(760);
  });

  // of readings that stray by 0.1 bar the highest of many stands 0.2 beyond what was there
  test("a lone reading at the mark, late among many a little below it, does not tell when it was met", () => {
    const stood = [731, 790, 850, 910, 970, 1030, 1090, 1150].map((s, i) => at(s, 2.75 + 0.05 * (i % 3)));
    const log = [...risen(400, 500, 600, 700), ...stood, at(1210, 3), at(1270, 2.85)];
    expect(raising(log, engine(0.02, 0.1))?.window?.[1]).toBeLessThan(760);
  });

  // warmed by 0.1 K a second: what is stored goes with that but for the swelling of the heats, a part in a hundred
  test("nearly at the mark when steam was used, it is worked out to the pressure that was read then", () => {
    const log: Entry[] = [...risen(400, 500, 600, 700, 715), { kind: "regulator", atS: 717, state: "open" }];
    const joulesAKelvin = (of = engine()) => {
      const found = raising([...log, at(760, 1.5)], of);
      const endS = found?.window?.[1] ?? Number.NaN;
      return (measured(found?.power).value * endS) / (100 + 0.1 * (endS - 300) - 15);
    };
    const ratio = joulesAKelvin(engine(0.02, 0.15)) / joulesAKelvin(engine(0.02, 0.02));
    expect(Math.abs(ratio - 1)).toBeLessThan(0.01);
  });

  test("a pressure that falls once steam is used was not stopped by a valve", () => {
    const open: Entry = { kind: "regulator", atS: 722, state: "open" };
    const found = raising([...risen(400, 500, 600, 700, 720), open, at(745, 2.5), at(800, 2.3)]);
    expect(found?.window?.[1]).toBeLessThan(723);
  });

  // a dial good to 0.1 and 0.1 bar may fall 0.35 short of it, or the fire may have been put out short of it
  test("nearly shown and never met, it is not told as met; a valve that lifted tells it", () => {
    const poor = engine(0.1, 0.1);
    expect(raising([at(460, 2.9)], poor)).toMatchObject({ toWorkingPressureS: null });
    expect(raising([at(460, 2.999)], engine(0.01, 0.01))?.toWorkingPressureS).toBeNull();
    expect(raising([at(460, 2.9), at(500, 3)], poor)?.toWorkingPressureS).toBeLessThanOrEqual(500);
    // by its pace it would have been met at 736 s, had the fire not been put out
    expect(raising([...risen(400, 500, 600, 700), at(760, 2.6)])?.toWorkingPressureS).toBeNull();
    const lifts: Entry = { kind: "valve", atS: 480, state: "lifts" };
    expect(raising([at(460, 2.9), lifts], poor)?.toWorkingPressureS).toBeLessThanOrEqual(480);
  });
});

describe("heat stored, by the steam tables", () => {
  const from = sources([lit, at(0, 2), at(600, 2)]);
  const water = saturatedWater(301_325);
  const steam = saturatedSteam(301_325);
  const totalM3 = (Math.PI / 4) * 0.05 ** 2 * 0.12;
  const metalJPerK = metalHeatCapacityJPerK(450, "copper");

  // m water and steam in a fixed volume: each of its own volume and energy
  test("of so many grams: water, steam above it, and metal from 0 °C on", () => {
    const { fixedJ, jPerG } = storedEnergyAt(from, 300);
    for (const grams of [60, 150]) {
      const m = grams / 1000;
      const steamKg = (totalM3 - m * water.volumeM3PerKg) / (steam.volumeM3PerKg - water.volumeM3PerKg);
      const byHand =
        (m - steamKg) * water.internalEnergyJPerKg +
        steamKg * steam.internalEnergyJPerKg +
        metalJPerK * (water.temperatureK - 273.15);
      expect((fixedJ + jPerG * grams) / byHand).toBeCloseTo(1, 6);
    }
  });

  test("of cold water: water and metal", () => {
    const cold = sources([lit, at(0, 0), at(600, 2)]);
    const { fixedJ, jPerG } = storedEnergyAt(cold, 0);
    // air and feed at 15 °C: 63.0 kJ/kg (handbooks), copper 385 J/kg K
    expect(jPerG).toBeCloseTo(63, 0);
    expect(fixedJ).toBeCloseTo(metalJPerK * 15, 6);
    expect(storedEnergySlope(cold, 0, 150)).toBe(0);
  });

  test("its slope with pressure is the difference of two pressures", () => {
    const energy = (barG: number) => {
      const other = sources([lit, at(0, barG), at(600, barG)]);
      const { fixedJ, jPerG } = storedEnergyAt(other, 300);
      return fixedJ + 150 * jPerG;
    };
    expect(storedEnergySlope(from, 300, 150) / ((energy(2.05) - energy(1.95)) / 0.1)).toBeCloseTo(1, 6);
    expect(storedEnergySlope(sources([lit]), 300, 150)).toBe(0);
  });
});

describe("strays of the demand, weighed by how well they explain", () => {
  const n = 12;
  const lively = Float64Array.from({ length: n }, (_, i) => 60 * i);
  const grid = (
    y: (i: number) => number,
    noise = 1,
    unknowns = 1,
    strays = [0.01, 3].map((size) => ({ size, memoryS: 30 })),
  ) =>
    strayGrid(
      {
        y: Float64Array.from({ length: n }, (_, i) => y(i)),
        noise: new Float64Array(n).fill(noise),
        factors: [],
        lively,
        meanRateGPerS: 0.1,
        unknowns,
      },
      strays,
    );

  test("all together weigh 1, and the likelier the more", () => {
    const quiet = grid((i) => (i % 2 === 0 ? 1 : -1));
    expect(quiet.weighed.reduce((sum, { weight }) => sum + weight, 0)).toBeCloseTo(1, 12);
    expect(quiet.weighed[0]?.rateGPerS).toBeCloseTo(0.001, 12);
    expect(quiet.weighed[0]?.weight).toBeGreaterThan(0.9);
    const strayed = grid((i) => 0.15 * 60 * i);
    expect(strayed.weighed.at(-1)?.rateGPerS).toBeCloseTo(0.3, 12);
    expect(strayed.weighed.at(-1)?.weight).toBeGreaterThan(0.9);
  });

  test("what weighs next to nothing is left out", () => {
    expect(grid((i) => 0.5 * 60 * i).weighed).toHaveLength(1);
    const alike = [0.1, 0.1, 0.1].map((size) => ({ size, memoryS: 30 }));
    const three = grid((i) => (i % 2 === 0 ? 1 : -1), 1, 1, alike).weighed;
    expect(three.map(({ weight }) => weight)).toEqual([1, 2, 3].map(() => expect.closeTo(1 / 3, 9)));
  });

  // next to no stray: chi-squared is the sum of squares over the variance; 11 free, up to 1 + 2.5 sqrt(2/11) = 2.066
  test("errors grow by the root of chi-squared over what is free, where that is beyond chance", () => {
    const none = [{ size: 1e-9, memoryS: 30 }];
    const factor = (squareEach: number, unknowns = 1) =>
      grid((i) => Math.sqrt(squareEach) * (i % 2 === 0 ? 1 : -1), 1, unknowns, none).errorFactor;
    expect(factor(1)).toBe(1);
    expect(factor((2.0 * 11) / 12)).toBe(1);
    expect(factor((2.1 * 11) / 12)).toBeCloseTo(Math.sqrt(2.1), 6);
    expect(factor(9)).toBeCloseTo(Math.sqrt((9 * 12) / 11), 6);
    expect(factor(0.01)).toBe(1);
    // nothing free, nothing to tell it by
    expect(factor(9, 12)).toBe(1);
    expect(factor(9, 13)).toBe(1);
    expect(factor(9, 11)).toBeCloseTo(Math.sqrt(9 * 12), 6);
  });

  test("causes in common are covariances, beside each reading's own variance", () => {
    const common = Float64Array.from({ length: n }, () => 100);
    const some = Float64Array.from({ length: n }, (_, i) => (i < 6 ? 0 : 50));
    const factor = (ofReadings: Float64Array) => ({
      kind: "prior" as const,
      name: "x",
      source: "",
      ofReadings,
      ofWanted: () => 0,
      timesUsual: 1,
    });
    const explain = {
      y: Float64Array.from({ length: n }, (_, i) => 7 + (i < 6 ? 0 : 4)),
      noise: new Float64Array(n).fill(1),
      factors: [factor(common), factor(some)],
      lively,
      meanRateGPerS: 0.1,
      unknowns: 2,
    };
    // two unknown steps explain it all
    const { weighed, errorFactor } = strayGrid(explain, [{ size: 1e-9, memoryS: 30 }]);
    expect(errorFactor).toBe(1);
    const explained = weighed[0]?.explained ?? new Float64Array(0);
    for (const value of explained) expect(Math.abs(value)).toBeLessThan(0.01);
  });
});

describe("rise of stored heat, its doubt by parts", () => {
  const glass = (mms: number[]): Entry[] => mms.map((mm, i) => ({ kind: "level", atS: 200 * i, mm }));
  const watched: Entry[] = [
    lit,
    at(0, 1),
    at(200, 1.5),
    at(400, 2),
    at(600, 2.5),
    ...glass([20, 20, 20, 20]),
  ];
  const from = sources(watched, engine(0.07, 0.03));
  const water = waterOf(from);
  const rise = energyRise(from, water, { fromS: 0, toS: 600, unit: "J" });
  const startG = water.balance?.value({ unit: "g", contents: [[0, 1]] }) ?? Number.NaN;
  const endG = water.balance?.value({ unit: "g", contents: [[600, 1]] }) ?? Number.NaN;
  const slopes = [storedEnergySlope(from, 0, startG), storedEnergySlope(from, 600, endG)] as const;
  const part = (figure: typeof rise, name: string) =>
    isMeasured(figure) ? figure.parts.findLast((one) => one.name === name)?.u : undefined;

  test("a reading's error counts at either end, the dial's bias by what it does to their difference", () => {
    expect(part(rise, "pressure readings")).toBeCloseTo(0.03 * Math.hypot(...slopes), 6);
    expect(part(rise, "bias of the pressure dial")).toBeCloseTo(0.07 * (slopes[1] - slopes[0]), 6);
    const atMark = energyRise(from, water, { fromS: 0, toS: 600, unit: "J", endsAtMark: true });
    expect(part(atMark, "pressure readings")).toBeCloseTo(0.03 * Math.abs(slopes[0]), 6);
  });

  test("a second of it is so many watts, errors and all", () => {
    const watts = energyRise(from, water, { fromS: 0, toS: 600, unit: "W", perSecond: true });
    if (!isMeasured(watts) || !isMeasured(rise)) throw new Error("no figure");
    expect(watts.value).toBeCloseTo(rise.value / 600, 6);
    expect(part(watts, "pressure readings")).toBeCloseTo((part(rise, "pressure readings") ?? 0) / 600, 9);
    const late = energyRise(from, water, { fromS: 200, toS: 600, unit: "W", perSecond: true });
    const part400 = energyRise(from, water, { fromS: 200, toS: 600, unit: "J" });
    if (!isMeasured(late) || !isMeasured(part400)) throw new Error("no figure");
    expect(late.value).toBeCloseTo(part400.value / 400, 6);
    expect(rise.parts.every(({ u }) => u !== 0)).toBe(true);
  });

  // water of 1 K less known at 15 °C: 4.19 J/g K (handbooks), and the metal with it
  test("cold water that is guessed to a kelvin, and the metal about it", () => {
    const cold = sources(
      [lit, at(0, 0), at(300, 1), at(600, 2), ...glass([20, 20, 20, 20])],
      engine(0.07, 0.03),
    );
    const heated = energyRise(cold, waterOf(cold), { fromS: 0, toS: 600, unit: "J" });
    const grams = waterOf(cold).balance?.value({ unit: "g", contents: [[0, 1]] }) ?? Number.NaN;
    const wanted = grams * 4.19 + metalHeatCapacityJPerK(450, "copper");
    expect((part(heated, "temperature of the cold water") ?? 0) / wanted).toBeCloseTo(1, 2);
  });

  test("without pressures, or with no more than weighings, there is none", () => {
    const bare = sources([lit, ...glass([20, 20, 20, 20])]);
    expect(energyRise(bare, waterOf(bare), { fromS: 0, toS: 600, unit: "J" })).toEqual({
      value: null,
      why: "no pressure was read",
    });
    const burnt: Entry[] = [
      { kind: "fuel", atS: 0, action: "added", g: 20 },
      { kind: "fire", atS: 600, state: "out" },
      { kind: "fuel", atS: 600, action: "remaining", g: 10 },
    ];
    const weighed = sources([
      ...burnt,
      lit,
      at(0, 1),
      at(600, 2),
      { kind: "weight", atS: 0, g: 2000 },
      { kind: "weight", atS: 600, g: 1990 },
    ]);
    expect(energyRise(weighed, waterOf(weighed), { fromS: 0, toS: 600, unit: "J" })).toEqual({
      value: null,
      why: expect.stringContaining("not how much there was"),
    });
    const both = sources([
      ...watched,
      { kind: "weight", atS: 0, g: 2000 },
      { kind: "weight", atS: 600, g: 2000 },
    ]);
    expect(isMeasured(energyRise(both, waterOf(both), { fromS: 0, toS: 600, unit: "J" }))).toBe(true);
  });
});

describe("a rise of which little was read", () => {
  const level = (mm: number, atS: number): Entry => ({ kind: "level", mm, atS });
  const raising = (entries: Entry[], of = engine()) =>
    analyse(of, {
      ...smallSteaming(),
      entries: [lit, level(20, 0), at(0, 0), ...entries, level(19, 1200)].sort((a, b) => a.atS - b.atS),
    }).raising;
  // lit at 15 °C and at 110 °C in 400 s: no faster after boiling than before, the 33.6 K more take 141 s at the least
  const held = [at(900, 0.97 * MARK), at(1000, 0.96 * MARK)];

  test("near the mark after a wide gap it may have been met any time since the pace from lighting met it", () => {
    const found = met([...risen(400), ...held]);
    expect(found?.atS).toBeGreaterThan((541 + 905) / 2 - 6);
    expect(found?.atS).toBeLessThan((541 + 920) / 2 + 6);
    expect(found?.uS).toBeGreaterThan((905 - 541) / 2 / Math.sqrt(3));
  });

  test("a rise that goes on, or a valve seen shut until then, leaves it to the line", () => {
    expect(met([...risen(400), at(900, 0.97 * MARK), at(960, MARK + 0.1)])?.atS).toBeGreaterThan(890);
    const lifts: Entry = { kind: "valve", atS: 1100, state: "lifts" };
    expect(met([...risen(400), ...held, lifts])?.atS).toBeGreaterThan(1000);
  });

  test("a lone reading long after she may have met working pressure tells no power", () => {
    // even at a third of the pace before boiling, 28 K more than 100 °C in 280 s, the 43.6 K take 431 s
    const late = raising([at(280, 0), at(900, 1.8)]);
    expect(late?.power).toMatchObject({
      value: null,
      why: expect.stringContaining("was not read for so long"),
    });
    const sooner = raising([at(280, 0), at(600, 1.8)])?.power;
    expect(sooner !== undefined && isMeasured(sooner)).toBe(true);
  });

  test("nothing read between lighting and working pressure that is held tells no power", () => {
    const unread = raising([at(900, 0.99 * MARK), at(1000, 0.99 * MARK), at(1100, 0.99 * MARK)]);
    expect(unread?.power).toMatchObject({
      value: null,
      why: expect.stringContaining("was not read for so long"),
    });
  });

  test("held within a poor dial's error of the mark for minutes, it was met at their beginning or their end", () => {
    const plateau = [740, 770, 800, 830, 860, 890].map((atS) => at(atS, 2.92));
    const poor = engine(0.05, 0.1);
    const entries = [at(280, 0), ...risen(400, 460, 520, 580, 640, 700), ...plateau, at(920, 3.02)];
    const [, toS] = raising(entries, poor)?.window ?? [0, 0];
    expect(toS).toBeGreaterThan(790);
    expect(toS).toBeLessThan(845);
  });
});
