import { describe, expect, test } from "vitest";
import { meanPressureBar } from "../../../src/analysis/pressure/pressure-at.ts";
import { pressureCourse } from "../../../src/analysis/pressure/pressure-course.ts";
import { inSteamS, meanOver } from "../../../src/analysis/pressure/pressure-over-time.ts";
import type { PressureReading } from "../../../src/analysis/pressure/pressure-points.ts";
import { pointsOfBoth } from "../../../src/analysis/pressure/pressure-points.ts";
import { pressureReadings } from "../../../src/analysis/pressure/pressure-readings.ts";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import type { Trace } from "../../../src/logbook/steaming.ts";
import { timelineOf } from "../../../src/logbook/timeline.ts";
import { isMeasured } from "../../../src/quantity/measured.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

const read = (atS: number, barG: number, uBar = 0.1): PressureReading => ({ atS, barG, uBar, by: "dial" });
const logged = (atS: number, barG: number, uBar = 0.1): PressureReading => ({
  atS,
  barG,
  uBar,
  by: "logger",
});
const fire = (atS: number, state: "lit" | "out" = "lit"): Entry => ({ kind: "fire", atS, state });
const course = (
  readings: PressureReading[],
  more: {
    entries?: Entry[];
    uDialBar?: number;
    thought?: readonly [number, number];
    heated?: (barG: number) => number;
    aboveBoilingK?: (barG: number) => number;
  } = {},
) =>
  pressureCourse(
    timelineOf({ ...smallSteaming(), entries: more.entries ?? [] }),
    pointsOfBoth(readings),
    more.uDialBar ?? 0.02,
    more.thought ?? null,
    [],
    {
      heated: more.heated ?? (() => 0.5),
      aboveBoilingK: more.aboveBoilingK ?? ((barG) => 20 * barG),
    },
  );

describe("nothing read", () => {
  const none = course([]);
  test("tells nothing", () => {
    expect(none.atS(10)).toBeNull();
    expect(meanOver(none, 0, 10)).toBeNull();
    expect(none.reaches(1, 0)).toBeNull();
    expect(none.highest).toBeNull();
    expect(none.firstSteamS).toBeNull();
    expect(none.beganInSteam).toBe(false);
    expect(inSteamS(none, 0, 100)).toBe(0);
  });
});

describe("a mean and a time with pressure on", () => {
  const up = course([read(100, 0), read(200, 2), read(300, 2), read(400, 0)], { heated: () => 0 });

  test("over no time the mean is what stood then", () => {
    expect(meanOver(up, 150, 150)).toBeCloseTo(1, 12);
    expect(meanOver(up, 200, 100)).toBeCloseTo(2, 12);
  });

  test("before the first reading, that reading", () => {
    const later = course([read(100, 2), read(200, 4)]);
    // 100 s at 2, then up to 4 over 100 s: 200 + 300 bar s
    expect(meanOver(later, 0, 200)).toBeCloseTo(2.5, 12);
    expect(meanOver(later, 40, 60)).toBeCloseTo(2, 12);
  });

  test("two readings of one moment: the later of the log stands from then on", () => {
    const twice = course([read(100, 1), read(200, 3), read(200, 2), read(300, 2)]);
    expect(twice.atS(200)).toBe(2);
    expect(meanOver(twice, 100, 300)).toBeCloseTo((200 + 200) / 200, 12);
    expect(course([read(100, 1), read(100, 3)]).atS(100)).toBe(3);
  });

  // above 0.05 bar from 102.5 s to 397.5 s
  test("pressure is on where it stands above none, between readings too", () => {
    expect(inSteamS(up, 0, 500)).toBeCloseTo(295, 9);
    expect(inSteamS(up, 150, 250)).toBeCloseTo(100, 9);
    expect(inSteamS(up, 0, 150)).toBeCloseTo(47.5, 9);
    expect(inSteamS(up, 350, 500)).toBeCloseTo(47.5, 9);
    expect(inSteamS(up, 397.5, 500)).toBeCloseTo(0, 9);
    expect(inSteamS(course([read(0, 0.05), read(100, 0.05)]), 0, 100)).toBe(0);
    expect(inSteamS(course([read(0, 2), read(100, 2)]), -50, 150)).toBe(200);
  });

  test("on only after first steam", () => {
    // a pointer that rests at 0.1 bar until the rise at 300 s
    const resting = course([read(0, 0.1), read(300, 0.1), read(400, 2.1)], {
      uDialBar: 0.1,
      heated: () => 0.2,
    });
    expect(resting.firstSteamS).toBeCloseTo(320, 9);
    expect(inSteamS(resting, 0, 400)).toBeCloseTo(80, 9);
    expect(inSteamS(resting, 350, 400)).toBeCloseTo(50, 9);
  });
});

describe("a pressure reached", () => {
  const wave = course([read(0, 1), read(100, 3), read(200, 1), read(300, 3)]);
  test("is met on the line between readings, or at once where it stands", () => {
    expect(wave.reaches(2, 0)).toBeCloseTo(50, 12);
    expect(wave.reaches(2, 60)).toBe(60);
    expect(wave.reaches(2, 110)).toBeCloseTo(250, 12);
    expect(wave.reaches(2, 260)).toBe(260);
    expect(wave.reaches(1, -50)).toBe(0);
    expect(wave.reaches(3, 0)).toBe(100);
    expect(wave.reaches(3, 100)).toBe(100);
    expect(wave.reaches(3.1, 0)).toBeNull();
    expect(course([read(0, 3), read(100, 3)]).reaches(3, 50)).toBe(50);
    expect(wave.highest).toEqual({ atS: 100, barG: 3 });
  });
});

describe("first steam", () => {
  test("a first reading beyond the doubt of the dial began in steam, three of its uncertainties", () => {
    expect(course([read(0, 0.31)], { uDialBar: 0.1 }).beganInSteam).toBe(true);
    expect(course([read(0, 0.3)], { uDialBar: 0.1 }).beganInSteam).toBe(false);
    expect(course([read(0, 0.051)], { uDialBar: 0.001 }).beganInSteam).toBe(true);
    expect(course([read(0, 0.05)], { uDialBar: 0.001 }).beganInSteam).toBe(false);
    expect(course([read(0, 2), read(100, 3)]).firstSteamS).toBeNull();
  });

  // 1 bar at 300 s, 2 bar at 400 s: zero at 200 s
  test("is where the line through the first two readings of steam leaves zero", () => {
    expect(course([read(0, 0), read(300, 1), read(400, 2)]).firstSteamS).toBeCloseTo(200, 9);
    // one below the doubt and above none is on that line
    expect(course([read(0, 0), read(250, 0.5), read(300, 1)], { uDialBar: 0.2 }).firstSteamS).toBeCloseTo(
      200,
      9,
    );
  });

  // a closed boiler that warms evenly: 9, 16 and 25 K above boiling are 3, 4 and 5 bar here, and 1 K a second
  test("is told by the boiling points, which rise evenly, not by the pressure, which rises ever faster", () => {
    const aboveBoilingK = (barG: number) => barG ** 2;
    const curved = course([read(0, 0), read(309, 3), read(316, 4), read(325, 5)], { aboveBoilingK });
    expect(curved.firstSteamS).toBeCloseTo(300, 9);
  });

  test("but not before the last reading of none, nor before the fire was lit", () => {
    const heated = () => 0.5;
    // none was read at 250 s: half of the heating from the lighting on, no earlier than that
    const late = course([read(0, 0), read(250, 0), read(300, 1), read(400, 2)], {
      entries: [fire(20)],
      heated,
    });
    expect(late.firstSteamS).toBeCloseTo(250, 9);
    const early = course([read(0, 0), read(300, 1), read(600, 1.2)], { entries: [fire(100)], heated });
    expect(early.firstSteamS).toBeCloseTo(100 + 0.5 * 200, 9);
    // not lit by the log: from the last reading of none
    expect(course([read(40, 0), read(300, 1), read(600, 1.2)], { heated }).firstSteamS).toBeCloseTo(170, 9);
    // a fire that was put out is none that was lit
    const out = course([read(40, 0), read(300, 1), read(600, 1.2)], { entries: [fire(100, "out")], heated });
    expect(out.firstSteamS).toBeCloseTo(170, 9);
    const relit = course([read(0, 0), read(300, 1), read(600, 1.2)], {
      entries: [fire(50, "out"), fire(100)],
      heated,
    });
    expect(relit.firstSteamS).toBeCloseTo(200, 9);
  });

  test("lit when steam was there already, it was then at the latest", () => {
    expect(course([read(0, 0), read(300, 1), read(400, 1)], { entries: [fire(350)] }).firstSteamS).toBe(300);
  });

  test("with one reading of steam only, or a pressure that falls, the share of the heating tells", () => {
    const heated = (barG: number) => 1 - barG / 10;
    expect(course([read(0, 0), read(400, 2)], { entries: [fire(0)], heated }).firstSteamS).toBeCloseTo(
      320,
      9,
    );
    const falling = course([read(0, 0), read(400, 2), read(500, 1)], { entries: [fire(0)], heated });
    expect(falling.firstSteamS).toBeCloseTo(320, 9);
  });

  test("what is thought of the lighting is the first point, and is said to be thought", () => {
    const thought = course([read(300, 1), read(400, 2)], { thought: [50, 0], entries: [fire(50)] });
    expect(thought.points[0]).toEqual([50, 0]);
    expect(thought.beginsThought).toBe(true);
    expect(thought.firstSteamS).toBeCloseTo(200, 9);
    expect(course([read(300, 1)]).beginsThought).toBe(false);
  });
});

describe("a logger and a dial, as one course", () => {
  const steady = Array.from({ length: 11 }, (_, i) => logged(10 * i, 2, 0.03));

  test("a reading between two samples moves the nearer by its weight against theirs", () => {
    // 0.03^2 / (0.03^2 + 0.06^2) = 1/5 of 0.5 bar
    expect(course([...steady, read(54, 2.5, 0.06)]).atS(50)).toBeCloseTo(2.1, 12);
    expect(course([...steady, read(54, 2.5, 0.06)]).atS(60)).toBeCloseTo(2, 12);
    expect(course([...steady, read(56, 2.5, 0.06)]).atS(60)).toBeCloseTo(2.1, 12);
    expect(course([...steady, read(50, 2.5, 0.06)]).atS(50)).toBeCloseTo(2.1, 12);
    expect(course([...steady, read(54, 2.5, 0.06)]).points).toHaveLength(11);
  });

  test("on a rise it is held against the line between them", () => {
    const rising = Array.from({ length: 11 }, (_, i) => logged(10 * i, 0.1 * i + 1, 0.06));
    expect(course([...rising, read(54, 1.54, 0.06)]).atS(50)).toBeCloseTo(1.5, 12);
  });

  test("before, after and in a gap of more than a minute it is a point of its own, in order of time", () => {
    const gap = [...steady, logged(160, 2, 0.03), logged(221, 2, 0.03)];
    const times = (extra: PressureReading) => course([...gap, extra]).points.map(([atS]) => atS);
    expect(times(read(130, 3))).toHaveLength(13);
    expect(times(read(190, 3))).toHaveLength(14);
    expect(times(read(190, 3)).at(-2)).toBe(190);
    expect(times(read(300, 3)).at(-1)).toBe(300);
    expect(times(read(-5, 3))[0]).toBe(-5);
  });

  // 1000 samples in threes: 334 points, each of its samples' mean, and good to 0.03 / sqrt(3)
  test("more than four hundred samples are put together by neighbours", () => {
    const many = Array.from({ length: 1000 }, (_, i) => logged(i, i, 0.03));
    const { points } = course(many);
    expect(points).toHaveLength(334);
    expect(points[1]).toEqual([4, 4]);
    expect(points.at(-1)).toEqual([999, 999]);
    const flat = Array.from({ length: 1000 }, (_, i) => logged(i, 2, 0.06));
    // 0.0012 / (0.0012 + 0.0036) = 1/4
    expect(course([...flat, read(4, 2.4, 0.06)]).atS(4)).toBeCloseTo(2.1, 12);
    expect(course(Array.from({ length: 400 }, (_, i) => logged(i, 2))).points).toHaveLength(400);
  });
});

describe("readings of dial and logger on one scale", () => {
  const errors = {
    pressureReadingBar: 0.06,
    pressureBiasBar: 0.05,
    levelReadingMm: 1,
    feedRelative: 0.02,
    massReadingG: 1,
    volumeReadingMl: 1,
  };
  const of = (entries: Entry[], values: number[]) => {
    const trace: Trace = { channel: "pressureBarG", startS: 0, everyS: 10, values };
    return pressureReadings(
      timelineOf({ ...smallSteaming(), entries, traces: values.length > 0 ? [trace] : [] }),
      errors,
      smallSteaming(),
    );
  };
  const at = (atS: number, barG: number): Entry => ({ kind: "pressure", atS, barG });
  const wave = (count: number, by: number) =>
    Array.from({ length: count }, (_, i) => 2 + (i % 2 === 0 ? 0 : by));

  test("a sample is as good as it scatters, a twentieth of a reading at the best, and a reading's where few are there", () => {
    const u = (values: number[]) => of([], values).all[0]?.uBar;
    expect(u(wave(40, 0.02))).toBeCloseTo((2 * 0.02) / 0.6745 / Math.sqrt(6), 9);
    expect(u(wave(40, 0))).toBeCloseTo(0.05 * 0.06, 12);
    expect(u(wave(11, 0.02))).toBe(0.06);
  });

  test("all stand in order of time", () => {
    expect(of([at(15, 2), at(5, 2)], [2, 2, 2]).all.map(({ atS }) => atS)).toEqual([0, 5, 10, 15, 20]);
    expect(of([at(15, 2)], []).all).toEqual([{ atS: 15, barG: 2, uBar: 0.06, by: "dial" }]);
  });

  // the dial 0.4 above: half of it, 0.2, is left to both; each gives way by a share of 0.4
  test("each gives way, less so below a fifth of a bar, where a pointer may rest, and not at none", () => {
    const flat = Array.from({ length: 60 }, () => 2);
    const readings = of([...[100, 200, 300, 400].map((s) => at(s, 2.4)), at(500, 0.1), at(590, 0)], flat);
    const { offset } = readings;
    // the two low ones lie more than five uncertainties off and are slips
    expect(offset?.entries).toHaveLength(4);
    expect(offset?.value).toBeCloseTo(0.4, 12);
    const by = (0.4 * 0.2 ** 2) / (2 * 0.2 ** 2 + (offset?.u ?? 0) ** 2);
    const barAt = (atS: number) => readings.all.find((one) => one.by === "dial" && one.atS === atS)?.barG;
    expect(readings.uBiasBar).toBeCloseTo(0.2, 12);
    expect(barAt(100)).toBeCloseTo(2.4 - by, 12);
    expect(barAt(500)).toBeCloseTo(0.1 - by / 2, 12);
    expect(barAt(590)).toBe(0);
    expect(readings.all.find((one) => one.by === "logger")?.barG).toBeCloseTo(2 + by, 12);
  });

  test("a zero that stands below none comes up to it, no further", () => {
    const low = of(
      [100, 200, 300, 400].map((s) => at(s, 2.4)),
      [-0.3, -0.1, ...Array.from({ length: 60 }, () => 2)],
    );
    const by = low.all.find((one) => one.by === "logger" && one.atS === 300)?.barG ?? Number.NaN;
    expect(by).toBeGreaterThan(2.15);
    expect(low.all[0]?.barG).toBeCloseTo(-0.3 + (by - 2), 12);
    expect(low.all[1]?.barG).toBe(0);
    // one that reads high at zero is not pushed below none
    const high = of(
      [100, 200, 300, 400].map((s) => at(s, 1.6)),
      [-0.3, ...Array.from({ length: 60 }, () => 2)],
    );
    expect(high.all[0]?.barG).toBe(-0.3);
  });

  test("below a fifth of a bar samples tell no bias", () => {
    expect(
      of(
        [at(100, 0.3)],
        Array.from({ length: 30 }, () => 0.2),
      ).offset,
    ).toBeNull();
    expect(
      of(
        [at(100, 0.3)],
        Array.from({ length: 30 }, () => 0.21),
      ).offset?.value,
    ).toBeCloseTo(0.09, 12);
  });
});

describe("mean pressure over a window, with its doubt", () => {
  const engine = { ...smallEngine(), instruments: { pressureReadingBar: 0.1, pressureBiasBar: 0.04 } };
  const mean = (entries: Entry[], fromS: number, toS: number) =>
    meanPressureBar(sourcesOf(engine, { ...smallSteaming(), entries }), fromS, toS);
  const at = (atS: number, barG: number): Entry => ({ kind: "pressure", atS, barG });
  const of = (entries: Entry[], fromS: number, toS: number) => {
    const figure = mean(entries, fromS, toS);
    if (!isMeasured(figure)) throw new Error(figure.why);
    return { value: figure.value, u: figure.parts.find(({ name }) => name === "pressure readings")?.u };
  };
  const log = [at(0, 1), at(100, 2), at(200, 2.5), at(300, 1.5)];

  // two readings within: 0.1 / sqrt(2); between them and their neighbours 1 to 2.5 bar: 0.2 x 1.5 / 2
  test("the more was read in it, the better; the wider the readings about it lie apart, the worse", () => {
    expect(of(log, 50, 250).u).toBeCloseTo(Math.hypot(0.1 / Math.sqrt(2), (0.2 * 1.5) / 2), 12);
    // the ends count as read within: 1, 2 and 2.5, and the neighbour at 1.5
    expect(of(log, 0, 200).u).toBeCloseTo(Math.hypot(0.1 / Math.sqrt(3), (0.2 * 1.5) / 3), 12);
    // none within: from 2 to 2.5 bar
    expect(of(log, 120, 180).u).toBeCloseTo(Math.hypot(0.1, 0.2 * 0.5), 12);
    expect(of(log, 120, 180).value).toBeCloseTo(2.25, 12);
    // one reading in all: it may have been anything
    expect(of([at(100, 2)], 0, 200).u).toBeCloseTo(Math.hypot(0.1, 0.2 * 2), 12);
    expect(of([at(100, 2)], 150, 200).u).toBeCloseTo(Math.hypot(0.1, 0.2 * 2), 12);
  });

  test("is none where nothing was read, or no pressure was on", () => {
    expect(mean([], 0, 100)).toEqual({ value: null, why: "no pressure was read" });
    expect(mean([at(0, 0.05), at(100, 0.05)], 0, 100)).toEqual({ value: null, why: "no pressure was on" });
    expect(of([at(0, 0.06), at(100, 0.06)], 0, 100).value).toBeCloseTo(0.06, 12);
  });
});

describe("steam beside a logger", () => {
  const zero = (atS: number) => logged(atS, 0.1);
  const risen = [logged(60, 0.35), logged(70, 0.5), logged(80, 0.8), logged(90, 1.1)];
  const dial = { uDialBar: 0.1 };

  test("one sample that errs above its own zero is no steam; steam stays", () => {
    const stray = [zero(0), logged(10, 0.4), zero(20), zero(30), logged(40, 0.4), zero(50)];
    expect(course(stray, dial).firstSteamS).toBeNull();
    const { firstSteamS, beganInSteam } = course([...stray, ...risen], dial);
    expect(firstSteamS).toBeGreaterThanOrEqual(40);
    expect(firstSteamS).toBeLessThanOrEqual(60);
    expect(beganInSteam).toBe(false);
    // nor is a first sample the beginning in steam
    expect(course([logged(0, 0.4), zero(10), zero(20), ...risen], dial).beganInSteam).toBe(false);
    const on = [0, 10, 20, 40].map((atS) => logged(atS, 0.4));
    expect(course(on, dial).beganInSteam).toBe(true);
    // a hand reads the dial seldom: one reading is enough
    expect(course([read(0, 0), read(300, 1), read(400, 0)], dial).firstSteamS).not.toBeNull();
  });

  test("a zero of its own beyond doubt is no steam as long as a hand reads none", () => {
    const high = [0, 10, 20, 30, 40, 50].map((atS) => logged(atS, 0.4));
    const hand = (atS: number, barG: number): Entry => ({ kind: "pressure", atS, barG });
    const entries = [hand(0, 0), hand(45, 0), hand(85, 1)];
    expect(course([...high, ...risen], { ...dial, entries }).firstSteamS).toBeGreaterThanOrEqual(45);
    expect(course([...high, ...risen], { ...dial, entries }).beganInSteam).toBe(false);
    expect(course([...high, ...risen], dial).beganInSteam).toBe(true);
    // that a hand reads none when all is over tells nothing of the beginning
    expect(course([...high, ...risen], { ...dial, entries: [hand(90, 0)] }).beganInSteam).toBe(true);
  });
});
