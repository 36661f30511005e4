import { describe, expect, test } from "vitest";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import { safetyValveOf } from "../../../src/analysis/valve/safety-valve.ts";
import { STRAYS } from "../../../src/analysis/valve/valve-course.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import {
  type Figure,
  interval,
  isMeasured,
  type Measured,
  standardUncertainty,
} from "../../../src/quantity/measured.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

/**
 * What is thought of a valve beforehand, as parts of working pressure (here 3 bar): lift 1.03, reseat 0.91; shut, it
 * comes to the lift at 0.0055 a second, slackening with 200 s away from it, and leaves the reseat at 0.0015, with 1000 s;
 * blowing, it sinks by 0.085 with a time of 7 s, and stands 0.04 above the reseat with one of 10 s, give or take 0.08 and
 * 0.02, and before the reseat 0.001 a second besides. A moment is written 2.5 s off, by 2 s in the mean of its size.
 */
const BAR = 3;
const OFF_S = 2;
const gone = (s: number, lastsS: number) => lastsS * (1 - Math.exp(-beside(s) / lastsS));
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

const comesToLift = (beforeS: number) => BAR * (1.03 - 0.0055 * gone(beforeS, 200));
const sinksFromLift = (sinceS: number) => BAR * (1.03 - 0.085 * (1 - Math.exp(-beside(sinceS) / 7)));
const sinksToReseat = (beforeS: number) => BAR * (0.91 + 0.04 * (1 - Math.exp(-beside(beforeS) / 10)));
const leavesReseat = (sinceS: number) => BAR * (0.91 - 0.0015 * gone(sinceS, 1000));
/** Cold feed or the regulator having shut it: 0.011 a second, slackening with 20 s. */
const plungesFromReseat = (sinceS: number) => BAR * (0.91 - 0.011 * gone(sinceS, 20));

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
    expect(figures([valve(1000, "reseats"), ...readings]).reseat().value).toBeCloseTo(0.91 * BAR, 6);
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
    expect(reseat().value).toBeCloseTo(0.91 * BAR, 6);
  });
});

/**
 * One reading s seconds from a moment: the mark, thought to 0.3 x 3 bar, is told by k of what is read, its variance over V, all
 * variances together; each error moves it by k of its own size, and (1 - k) of it is left. Beside the 0.3 it may stand off
 * a usual fall between lift and reseat by 0.06 / root 2. How the pressure strays is tried in several ways: an error of the
 * reading or of the dial moves their mean by the mean of k, and what k differs by counts to how it strayed.
 */
describe("one reading beside a moment", () => {
  const D = Math.hypot(0.3, 0.06 * Math.SQRT1_2) * BAR;
  const meanOver = (
    strays: readonly { sd: number; likely: number }[],
    varianceWithout: number,
    s: number,
    of: (k: number, strayed: number) => number,
  ) => {
    const ways = strays.map(({ sd, likely }) => {
      const strayed = (sd * BAR) ** 2 * (s / 60);
      const V = D ** 2 + varianceWithout + strayed;
      return { k: D ** 2 / V, strayed, likely: likely * V ** -0.5 };
    });
    const total = ways.reduce((sum, { likely }) => sum + likely, 0);
    return ways.reduce((sum, { k, strayed, likely }) => sum + (likely / total) * of(k, strayed), 0);
  };

  test.each([
    ["20 s before the lift", 980, comesToLift(20), "lifts", 0.005 * gone(20, 200), Math.hypot(0.0055, 0.005)],
    [
      "8 s after the lift",
      1008,
      sinksFromLift(8),
      "lifts",
      0.08 * (1 - Math.exp(-beside(8) / 7)),
      (0.085 / 7) * Math.exp(-beside(8) / 7),
    ],
    [
      "5 s before the reseat",
      995,
      sinksToReseat(5),
      "reseats",
      Math.hypot(0.02 * (1 - Math.exp(-beside(5) / 10)), 0.001 * beside(5)),
      (0.04 / 10) * Math.exp(-beside(5) / 10),
    ],
    [
      "10 s after the reseat",
      1010,
      leavesReseat(10),
      "reseats",
      0.004 * gone(10, 1000),
      Math.hypot(0.0015, 0.004),
    ],
  ] as const)("%s: every part of the uncertainty", (_, atS, barG, state, uPace, perSecond) => {
    const sheet = figures([valve(1000, state), at(atS, barG)], { reading: 0.04, bias: 0.1 });
    const figure = state === "lifts" ? sheet.lift() : sheet.reseat();
    const s = Math.abs(atS - 1000);
    const errors = { reading: 0.04, bias: 0.1, pace: BAR * uPace, moment: BAR * 2.5 * perSecond };
    const V = Object.values(errors).reduce((sum, u) => sum + u ** 2, 0);
    const blows = (state === "lifts") === atS > 1000;
    const mean = (of: (k: number, strayed: number) => number) =>
      meanOver(blows ? STRAYS.blowing : STRAYS.shut, V, s, of);
    const wanted = (of: (k: number, strayed: number) => number) =>
      Math.sqrt(mean((...one) => of(...one) ** 2));
    const k = mean((one) => one);
    expect(partOf(figure, "pressure readings")).toBeCloseTo(k * errors.reading, 6);
    expect(partOf(figure, "bias of the pressure dial")).toBeCloseTo(k * errors.bias, 6);
    const strays = wanted((one) => one - k);
    expect(partOf(figure, "moment of the valve")).toBeCloseTo(
      wanted((k) => k * errors.moment),
      6,
    );
    expect(partOf(figure, "few readings")).toBeCloseTo(
      wanted((k) => Math.hypot(k * errors.pace, (1 - k) * D)),
      6,
    );
    expect(partOf(figure, "pressure between readings")).toBeCloseTo(
      Math.hypot(
        wanted((k, strayed) => k * Math.sqrt(strayed)),
        strays * Math.hypot(errors.reading, errors.bias),
      ),
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
    // each strays by itself, and much of it is the less likely where both agree
    expect(near("pressure between readings")).toBeLessThan(Math.SQRT1_2);
  });

  // of the doubt of a rise 0.6 is each lift's own and 0.8 the fire's at both: root(0.64 + 0.36/2) = 0.906 of it is left
  test("come to their lifts at paces of one fire", () => {
    const few = (entries: Entry[]) =>
      partOf(figures(entries, { reading: 0.001, bias: 0.001 }).lift(), "few readings");
    const one = few([valve(1000, "lifts"), at(940, comesToLift(60))]);
    const both = few([...twice, at(940, comesToLift(60)), at(1940, comesToLift(60))]);
    expect(both / one).toBeGreaterThan(0.87);
    expect(both / one).toBeLessThan(0.97);
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
      at(1005, plungesFromReseat(5)),
    ]).reseat().value;

  test("is where the pressure was before it plunged, fed from 20 s before to a minute after", () => {
    for (const fedS of [981, 1000, 1059]) expect(plunge(fedS)).toBeCloseTo(0.91 * BAR, 6);
    for (const fedS of [null, 980, 1060]) expect(plunge(fedS)).toBeLessThan(0.9 * BAR);
  });

  test("an axle pump's own feed, measured later, is none of it; one of several feeds is", () => {
    expect(plunge(1010, "axle-pump")).toBeLessThan(0.9 * BAR);
    const several = figures([
      valve(1000, "reseats"),
      { kind: "feed", atS: 500, ml: 20, by: "bottle" },
      { kind: "feed", atS: 1010, ml: 20, by: "hand-pump" },
      at(1005, plungesFromReseat(5)),
    ]);
    expect(several.reseat().value).toBeCloseTo(0.91 * BAR, 6);
  });

  test("a lift is none of it", () => {
    const fed: Entry = { kind: "feed", atS: 1010, ml: 20, by: "bottle" };
    const lift = figures([valve(1000, "lifts"), fed, at(990, comesToLift(10))]).lift();
    expect(lift.value).toBeCloseTo(1.03 * BAR, 6);
  });
});

describe("a reseat that the regulator's opening brought about", () => {
  const opened = (openS: number, state: "open" | "shut" = "open") =>
    figures([
      valve(1000, "reseats"),
      { kind: "regulator", state, atS: openS },
      at(970, BAR * (0.91 + 0.04)),
      at(1005, plungesFromReseat(5)),
    ]).reseat();

  test("is where the pressure was before it plunged, as with cold feed", () => {
    expect(opened(997).value).toBeCloseTo(0.91 * BAR, 2);
    expect(opened(500).value).toBeLessThan(0.9 * BAR);
    expect(opened(997, "shut").value).toBeLessThan(0.9 * BAR);
  });

  test("has its moment in more doubt, for the pressure had begun to sink before it", () => {
    const at5 = (openS: number) =>
      partOf(
        figures([
          valve(1000, "reseats"),
          { kind: "regulator", state: "open", atS: openS },
          at(998, 0.92 * BAR),
        ]).reseat(),
        "moment of the valve",
      );
    expect(at5(995)).toBeGreaterThan(2 * at5(500));
  });
});

describe("lift and reseat of one valve", () => {
  const reseats = [valve(1200, "reseats"), at(1195, sinksToReseat(5)), at(1205, leavesReseat(5))];

  test("lie about a usual fall apart: a lift that is poorly read is told by a reseat that is well read", () => {
    const poorly = [valve(1000, "lifts"), at(940, comesToLift(60) - 0.25)];
    const alone = figures(poorly).lift();
    const beside = figures([...poorly, ...reseats]).lift();
    expect(alone.value).toBeLessThan(2.97);
    expect(Math.abs(beside.value - 1.03 * BAR)).toBeLessThan(Math.abs(alone.value - 1.03 * BAR));
    expect(standardUncertainty(beside)).toBeLessThan(standardUncertainty(alone));
  });

  test("the reseat alone tells no lift", () => {
    const engine = { ...smallEngine(), instruments: { pressureReadingBar: 0.02, pressureBiasBar: 0.05 } };
    const entries = [valve(700, "lifts"), ...reseats];
    const sheet = safetyValveOf(sourcesOf(engine, { ...smallSteaming(), entries }));
    expect(sheet?.lift).toEqual({ value: null, why: expect.stringContaining("near enough to the lift") });
    expect(sheet?.reseat.value).not.toBeNull();
  });
});

describe("a lift soon after a reseat", () => {
  const again = (...between: Entry[]) =>
    figures([
      valve(900, "reseats"),
      ...between,
      valve(1000, "lifts"),
      at(970, BAR * (1.03 - 0.0018 * beside(30))),
    ]).lift();

  test("is come to slowly by the fire that lifted it before, faster after a plunge", () => {
    expect(again().value).toBeCloseTo(1.03 * BAR, 1);
    expect(again({ kind: "feed", by: "bottle", ml: 20, atS: 905 }).value).toBeGreaterThan(
      again().value + 0.03,
    );
  });
});

test("readings that fall on straight to the reseat are no sign that it lies far below them", () => {
  // read each half minute: above the lift by 0.3 bar, then down a tenth of a bar in ten seconds; reseated at 3.75
  const engine = {
    ...smallEngine(),
    workingPressureBarG: 4,
    instruments: { pressureReadingBar: 0.02, pressureBiasBar: 0 },
  };
  const entries = [
    at(660, 3.48),
    at(690, 3.72),
    at(720, 3.96),
    valve(738, "lifts"),
    at(750, 4.27),
    at(780, 4.38),
    at(810, 4.24),
    at(840, 3.88),
    valve(851, "reseats"),
    at(870, 3.9),
  ];
  const reseat = safetyValveOf(sourcesOf(engine, { ...smallSteaming(), entries }))?.reseat;
  if (reseat === undefined || !isMeasured(reseat)) throw new Error("no figure");
  expect(Math.abs(reseat.value - 3.75)).toBeLessThan(0.12);
  const [low, high] = interval(reseat);
  expect(low).toBeLessThan(3.75);
  expect(high).toBeGreaterThan(3.75);
  expect(low).toBeGreaterThan(3.4);
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
