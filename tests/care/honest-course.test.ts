import { describe, expect, test } from "vitest";
import { careOf } from "../../src/care/care.ts";
import { careReportOf } from "../../src/care/care-report.ts";
import type { Fitting } from "../../src/logbook/locomotive.ts";
import { drip, engineWith, outing, recordsOf } from "./season-logbook.ts";

const gland: Fitting = { id: "gland", name: "Gland", kind: "gland", limitGPerMin: 0.5 };
const weeks = (levels: readonly number[]) => levels.map((g, week) => outing(week, [drip("gland", g)]));
const reportFor = (levels: readonly number[], fitting: Fitting = gland) => {
  const engine = engineWith([fitting]);
  const care = careOf(engine, recordsOf(engine, weeks(levels)), []);
  const [report] = careReportOf(care).fittings;
  const [own] = care.fittings;
  if (report === undefined || own === undefined) throw new Error("no fitting came back");
  return { report, own };
};

describe("hours to the limit", () => {
  test("are not to be had where no upper end holds, and it is said that they are more than some hours", () => {
    // 80 times in 100 bounded, 95 times in 100 not
    const { report, own } = reportFor([0.2, 0.22, 0.24, 0.21, 0.24, 0.26]);
    expect(own.leak?.chanceOver(1000)).toBeGreaterThan(0.9);
    expect(own.leak?.chanceOver(1000)).toBeLessThan(0.975);
    expect(report.hoursToLimit).toEqual({
      value: null,
      why: expect.stringMatching(
        /^cannot tell: more than \d+(\.\d)? h, .* but the readings set no upper end/,
      ),
    });
  });

  test("have both ends of their interval from the readings where they are given", () => {
    for (const levels of [
      [0.1, 0.15, 0.2, 0.25, 0.3, 0.35],
      [0.1, 0.2, 0.3, 0.4],
      [0.3, 0.33, 0.36, 0.4, 0.42],
    ]) {
      const { hoursToLimit } = reportFor(levels).report;
      if (hoursToLimit.value === null) continue;
      const { own } = reportFor(levels);
      expect(own.leak?.chanceOver(hoursToLimit.hi95)).toBeCloseTo(0.975, 2);
      expect(hoursToLimit.hi95).toBeLessThan(1000);
    }
  });

  test("are none from one catch, however far over", () => {
    const { report } = reportFor([0.9]);
    expect(report.state).toBe("attend");
    expect(report.hoursToLimit).toMatchObject({ value: null, why: expect.stringContaining("three") });
    expect(report.why).not.toContain("reached");
  });

  test("are nothing once it is over, with the time it may yet have in the interval", () => {
    const { hoursToLimit } = reportFor([0.2, 0.3, 0.4, 0.55]).report;
    expect(hoursToLimit).toMatchObject({ value: 0, lo95: 0 });
  });
});

describe("rising steadily", () => {
  const words = "rising steadily";
  test("is not said of readings in order whose rise is within their own errors", () => {
    // 0.007 g/min in all, each to 0.005
    expect(reportFor([0.1, 0.101, 0.102, 0.103, 0.104, 0.105, 0.106, 0.107]).report.why).not.toContain(words);
  });
  test("is said where order and slope both say so", () => {
    expect(reportFor([0.1, 0.14, 0.17, 0.21, 0.26, 0.3]).report.why).toContain(words);
  });
});

describe("the slope's interval", () => {
  test("is never narrower than the errors of the readings make it", () => {
    const { slope } = reportFor([0.2, 0.2, 0.2, 0.2, 0.2, 0.2, 0.2, 0.2]).report;
    if (slope.value === null) throw new Error(slope.why);
    expect(slope.value).toBe(0);
    // weighed to a step of 0.1 g over two minutes: 0.05 g/min each, an hour apart
    expect(slope.hi95).toBeGreaterThan((1.96 * 0.05) / Math.sqrt(42));
    expect(slope.lo95).toBeCloseTo(-slope.hi95, 9);
    expect(slope.u).toBeGreaterThan(0.05 / Math.sqrt(42));
  });
});

describe("levels far from usual", () => {
  test("a thousandfold limit is passed at what was caught", () => {
    const { own } = reportFor([4, 5, 4, 4.5, 5], { ...gland, limitGPerMin: 0.001 });
    expect(own.leak?.levelNow.value).toBeGreaterThan(3.5);
    expect(own.leak?.levelNow.value).toBeLessThan(6);
    expect(own.leak?.levelNow.high80).toBeGreaterThan(own.leak?.levelNow.value ?? 0);
  });
  test("a limit out of all reach does not drown what was caught", () => {
    for (const levels of [[0.1], [0.1, 0.11, 0.1, 0.09, 0.1]]) {
      const { own } = reportFor(levels, { ...gland, limitGPerMin: 1e6 });
      expect(own.leak?.levelNow.value).toBeCloseTo(0.1, 1);
      expect(own.leak?.levelNow.high80).toBeLessThan(0.3);
    }
  });
  test("a tiny limit is told with the digits that count", () => {
    const { report } = reportFor([0.1, 0.1, 0.1], { ...gland, limitGPerMin: 0.00002 });
    expect(report.why).toContain("the owner's limit is 0.000020");
  });
});

describe("nothing caught", () => {
  test("time after time is said so, with what would have been told", () => {
    const { report } = reportFor([0, 0, 0, 0, 0, 0]);
    expect(report.state).toBe("sound");
    expect(report.why).toMatch(
      /^Nothing was caught in 6 catches: it passes less than 0\.\d+ g\/min .*9 times in 10/,
    );
    if (report.slope.value === null) throw new Error(report.slope.why);
    expect(report.slope.hi95).toBeGreaterThan(0);
  });
});

test("a step names the steaming from which it stands", () => {
  const { report } = reportFor([0.1, 0.11, 0.1, 0.09, 0.1, 0.1, 0.3, 0.31, 0.29, 0.3, 0.31, 0.3]);
  expect(report.change).toMatchObject({ steamingId: "week-6" });
});

test("two catches ask for one more, in plain words", () => {
  expect(reportFor([0.1, 0.1]).own.measureNext).toContain("at the next steaming: a trend wants three");
  expect(reportFor([0.1]).own.measureNext).toContain("at each of the next 2 steamings");
});

test("what is caught of a fitting without a limit gives that for the reason of no slope", () => {
  const { report } = reportFor([0.1, 0.1], { id: "gland", name: "Burner", kind: "burner" });
  expect(report.slope).toEqual({ value: null, why: "no limit is set: its catches are told and not judged" });
});
