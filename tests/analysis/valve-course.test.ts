import { describe, expect, test } from "vitest";
import { safetyValveOf } from "../../src/analysis/safety-valve.ts";
import { sourcesOf } from "../../src/analysis/sources.ts";
import { STRAY_SDS } from "../../src/analysis/valve-course.ts";
import type { Entry } from "../../src/logbook/entry.ts";
import { type Figure, isMeasured, type Measured } from "../../src/quantity/measured.ts";
import { smallEngine, smallSteaming } from "../support/small-logbook.ts";

/**
 * What is thought of a valve beforehand, as parts of working pressure (here 3 bar): lift 1.03, reseat 0.92; shut, it
 * comes to the lift at 0.005 a second and leaves the reseat at 0.006; blowing, it sinks by 0.095 with a time of 10 s, and
 * stands 0.06 above the reseat before it, both give or take 0.08. A moment is written 3 s off, by 0.8 x 3 s in the mean of its size.
 */
const BAR = 3;
const OFF_S = 2.4;
const at = (atS: number, barG: number): Entry => ({ kind: "pressure", atS, barG });
const valve = (atS: number, state: "lifts" | "reseats"): Entry => ({ kind: "valve", atS, state });
const figures = (entries: Entry[], u = { reading: 0.02, bias: 0.1 }) => {
  const engine = {
    ...smallEngine(),
    instruments: { pressureReadingBar: u.reading, pressureBiasBar: u.bias },
  };
  const sorted = [...entries].sort((a, b) => a.atS - b.atS);
  const sheet = safetyValveOf(sourcesOf(engine, { ...smallSteaming(), entries: sorted }));
  const measured = (figure: Figure | undefined): Measured => {
    if (figure === undefined || !isMeasured(figure)) throw new Error("no figure");
    return figure;
  };
  return { lift: () => measured(sheet?.lift), reseat: () => measured(sheet?.reseat) };
};
const beside = (sinceS: number) => Math.hypot(sinceS, OFF_S);
const partOf = ({ parts }: Measured, name: string) => parts.find((part) => part.name === name)?.u ?? 0;

const comesToLift = (beforeS: number) => BAR * (1.03 - 0.005 * beside(beforeS));
const sinksFromLift = (sinceS: number) => BAR * (1.03 - 0.095 * (1 - Math.exp(-beside(sinceS) / 10)));
const sinksToReseat = (beforeS: number) => BAR * (0.92 + 0.06 * (1 - Math.exp(-beside(beforeS) / 10)));
const leavesReseat = (sinceS: number) => BAR * (0.92 - 0.006 * beside(sinceS));

describe("readings that lie where they are thought to lie leave what was thought", () => {
  test.each<[string, Entry[]]>([
    ["before it", [at(950, comesToLift(50)), at(990, comesToLift(10))]],
    ["after it", [at(1003, sinksFromLift(3)), at(1040, sinksFromLift(40))]],
    ["on both sides", [at(970, comesToLift(30)), at(1000, comesToLift(0)), at(1020, sinksFromLift(20))]],
  ])("of the lift, %s", (_, readings) => {
    expect(figures([valve(1000, "lifts"), ...readings]).lift().value).toBeCloseTo(1.03 * BAR, 6);
  });

  test.each<[string, Entry[]]>([
    ["before it", [at(960, sinksToReseat(40)), at(996, sinksToReseat(4)), at(1000, sinksToReseat(0))]],
    ["after it", [at(1004, leavesReseat(4)), at(1030, leavesReseat(30))]],
  ])("of the reseat, %s", (_, readings) => {
    expect(figures([valve(1000, "reseats"), ...readings]).reseat().value).toBeCloseTo(0.92 * BAR, 6);
  });

  test("each reading is told from the moment that it is nearest to, in whatever order they stand", () => {
    const all = [
      valve(1000, "lifts"),
      valve(1200, "reseats"),
      at(990, comesToLift(10)),
      at(1090, sinksFromLift(90)),
      at(1110, sinksToReseat(90)),
      at(1230, leavesReseat(30)),
    ];
    const { lift, reseat } = figures(all);
    expect(lift().value).toBeCloseTo(1.03 * BAR, 6);
    expect(reseat().value).toBeCloseTo(0.92 * BAR, 6);
  });
});

/**
 * One reading s seconds from a moment: the mark, thought to 0.3 x 3 bar, is told by k = 0.81 / V of what is read, V all its
 * variances together; each error moves it by k of its own size, and (1 - k) of the 0.9 bar is left.
 */
describe("one reading beside a moment", () => {
  const D = 0.3 * BAR;
  const meanOver = (varianceWithout: number, s: number, of: (k: number, strayed: number) => number) => {
    const ways = STRAY_SDS.map((sd) => {
      const strayed = (sd * BAR) ** 2 * (s / 60);
      const V = D ** 2 + varianceWithout + strayed;
      return { k: D ** 2 / V, strayed, likely: V ** -0.5 };
    });
    const total = ways.reduce((sum, { likely }) => sum + likely, 0);
    return Math.sqrt(
      ways.reduce((sum, { k, strayed, likely }) => sum + (likely / total) * of(k, strayed) ** 2, 0),
    );
  };

  test.each([
    ["20 s before the lift", 980, comesToLift(20), "lifts", 0.005 * beside(20), Math.SQRT2 * 0.005],
    [
      "8 s after the lift",
      1008,
      sinksFromLift(8),
      "lifts",
      0.08 * (1 - Math.exp(-beside(8) / 10)),
      (0.095 / 10) * Math.exp(-beside(8) / 10),
    ],
    [
      "5 s before the reseat",
      995,
      sinksToReseat(5),
      "reseats",
      0.08 * (1 - Math.exp(-beside(5) / 10)),
      (0.06 / 10) * Math.exp(-beside(5) / 10),
    ],
    [
      "10 s after the reseat",
      1010,
      leavesReseat(10),
      "reseats",
      0.009 * beside(10),
      Math.hypot(0.006, 0.009),
    ],
  ] as const)("%s: every part of the uncertainty", (_, atS, barG, state, uPace, perSecond) => {
    const sheet = figures([valve(1000, state), at(atS, barG)], { reading: 0.04, bias: 0.1 });
    const figure = state === "lifts" ? sheet.lift() : sheet.reseat();
    const s = Math.abs(atS - 1000);
    const errors = { reading: 0.04, bias: 0.1, pace: BAR * uPace, moment: BAR * 3 * perSecond };
    const V = Object.values(errors).reduce((sum, u) => sum + u ** 2, 0);
    const wanted = (of: (k: number, strayed: number) => number) => meanOver(V, s, of);
    expect(partOf(figure, "pressure readings")).toBeCloseTo(
      wanted((k) => k * errors.reading),
      6,
    );
    expect(partOf(figure, "bias of the pressure dial")).toBeCloseTo(
      wanted((k) => k * errors.bias),
      6,
    );
    expect(partOf(figure, "moment of the valve")).toBeCloseTo(
      wanted((k) => k * errors.moment),
      6,
    );
    expect(partOf(figure, "few readings")).toBeCloseTo(
      wanted((k) => Math.hypot(k * errors.pace, (1 - k) * D)),
      6,
    );
    expect(partOf(figure, "pressure between readings")).toBeCloseTo(
      wanted((k, strayed) => k * Math.sqrt(strayed)),
      6,
    );
  });
});

describe("two moments of one kind", () => {
  const twice = [valve(1000, "lifts"), valve(2000, "lifts")];

  test("have one lift, each its own moment and pace: two readings tell it better than one", () => {
    const one = figures([valve(1000, "lifts"), at(990, comesToLift(10))]).lift();
    const both = figures([...twice, at(990, comesToLift(10)), at(1990, comesToLift(10))]).lift();
    const near = (part: string) => partOf(both, part) / partOf(one, part);
    for (const part of ["pressure readings", "moment of the valve"])
      expect(near(part), part).toBeCloseTo(Math.SQRT1_2, 1);
    expect(near("bias of the pressure dial")).toBeCloseTo(1, 1);
  });

  test("on both sides of one moment the paces and strays are two, on one side one", () => {
    const sides = figures([
      valve(1000, "reseats"),
      at(1010, leavesReseat(10)),
      at(1040, leavesReseat(40)),
    ]).reseat();
    const single = figures([valve(1000, "reseats"), at(1010, leavesReseat(10))]).reseat();
    // the further one tells little that the nearer, with the same stray up to it, does not
    expect(
      partOf(sides, "pressure between readings") / partOf(single, "pressure between readings"),
    ).toBeGreaterThan(0.8);
  });
});

describe("a reseat that cold feed brought about", () => {
  const plunge = (fedS: number | null, by: "bottle" | "axle-pump" = "bottle") =>
    figures([
      valve(1000, "reseats"),
      ...(fedS === null ? [] : [{ kind: "feed", atS: fedS, ml: 20, by } as Entry]),
      at(1005, BAR * (0.92 - 0.02 * beside(5))),
    ]).reseat().value;

  // so fed, the pressure is thought to leave the reseat at 0.02 a second
  test("is where the pressure was before it plunged, fed from 20 s before to a minute after", () => {
    for (const fedS of [981, 1000, 1059]) expect(plunge(fedS)).toBeCloseTo(0.92 * BAR, 6);
    for (const fedS of [null, 980, 1060]) expect(plunge(fedS)).toBeLessThan(0.9 * BAR);
  });

  test("an axle pump's own feed, measured later, is none of it; one of several feeds is", () => {
    expect(plunge(1010, "axle-pump")).toBeLessThan(0.9 * BAR);
    const several = figures([
      valve(1000, "reseats"),
      { kind: "feed", atS: 500, ml: 20, by: "bottle" },
      { kind: "feed", atS: 1010, ml: 20, by: "hand-pump" },
      at(1005, BAR * (0.92 - 0.02 * beside(5))),
    ]);
    expect(several.reseat().value).toBeCloseTo(0.92 * BAR, 6);
  });

  test("a lift is none of it", () => {
    const fed: Entry = { kind: "feed", atS: 1010, ml: 20, by: "bottle" };
    const lift = figures([valve(1000, "lifts"), fed, at(990, comesToLift(10))]).lift();
    expect(lift.value).toBeCloseTo(1.03 * BAR, 6);
  });
});

test("a reading too far from the lift to tell more than was thought beforehand tells no lift", () => {
  const of = (reading: number) =>
    safetyValveOf(
      sourcesOf(
        { ...smallEngine(), instruments: { pressureReadingBar: reading, pressureBiasBar: 0.05 } },
        { ...smallSteaming(), entries: [at(950, 2.4), valve(1000, "lifts")] },
      ),
    )?.lift;
  // left of 0.9 bar: V = 0.81 + error^2 + pace (0.75 bar)^2 ...: more than 0.6 of it from an error of about 0.5 bar on
  expect(of(0.1)?.value).not.toBeNull();
  expect(of(1.2)).toEqual({ value: null, why: expect.stringContaining("read the dial as it happens") });
});
