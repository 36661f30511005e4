import { describe, expect, test } from "vitest";
import type { PressureReading } from "../../../src/analysis/pressure/pressure-points.ts";
import type { Sources } from "../../../src/analysis/sources.ts";
import { greaterOf, loggedAt } from "../../../src/analysis/valve/valve-logged.ts";
import type { Mark } from "../../../src/analysis/valve/valve-moment.ts";
import { timelineOf } from "../../../src/logbook/timeline.ts";
import type { Measured } from "../../../src/quantity/measured.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";
import { partNamed } from "../water/balance-by-hand.ts";

const BIAS = 0.02;
/** A sample a second by a logger that errs by next to nothing. */
const sampled = (fromS: number, toS: number, bar: (atS: number) => number, uBar = 1e-3): PressureReading[] =>
  Array.from({ length: toS - fromS + 1 }, (_, i) => ({
    atS: fromS + i,
    barG: bar(fromS + i),
    uBar,
    by: "logger",
  }));
const from = (all: readonly PressureReading[]) =>
  ({
    timeline: timelineOf({ ...smallSteaming(), entries: [] }),
    pressures: { all },
    errors: { pressureBiasBar: BIAS },
    locomotive: smallEngine(),
  }) as unknown as Sources;
const moments = (mark: Mark, ...times: number[]) => times.map((atS) => ({ atS, mark }));
const own = ({ parts }: Measured) =>
  Math.hypot(...parts.filter(({ source }) => source === undefined).map(({ u }) => u));
const had = (figure: Measured | null): Measured => {
  if (figure === null) throw new Error("no figure");
  return figure;
};

describe("the greater of a lift and the highest seen", () => {
  const bias = { name: "bias of the pressure dial", source: "dial of small", u: BIAS };
  const figure = (value: number, u: number, name: string): Measured => ({
    value,
    unit: "bar",
    parts: [{ name, u }, bias],
  });

  test("is the one that stands far above the other, with its doubt, and the bias once", () => {
    const [lift, top] = [figure(3, 0.01, "lift's own"), figure(3.5, 0.02, "top's own")];
    const higher = greaterOf(lift, top);
    expect(higher.value).toBeCloseTo(3.5, 6);
    expect(partNamed(higher, "top's own")).toBeCloseTo(0.02, 6);
    expect(partNamed(higher, "lift's own")).toBeCloseTo(0, 6);
    expect(higher.parts.filter(({ source }) => source !== undefined)).toEqual([bias]);
    const lower = greaterOf(top, lift);
    expect(lower.value).toBeCloseTo(3.5, 6);
    expect(partNamed(lower, "top's own")).toBeCloseTo(0.02, 6);
    expect(partNamed(lower, "lift's own")).toBeCloseTo(0, 6);
  });

  // the greater of two alike lies above both by u/root(2 pi) of their difference, whose u is 0.05 here
  test("lies above both where they are alike", () => {
    const alike = greaterOf(figure(3, 0.03, "lift's own"), figure(3, 0.04, "top's own"));
    expect(alike.value - 3).toBeCloseTo(0.05 / Math.sqrt(2 * Math.PI), 6);
    expect(partNamed(alike, "lift's own")).toBeCloseTo(0.5 * 0.03, 6);
    expect(partNamed(alike, "top's own")).toBeCloseTo(0.5 * 0.04, 6);
  });
});

describe("a top about which the pressure goes on along a line", () => {
  const PACE = 0.01;
  const line = (fromS: number, toS: number) => from(sampled(fromS, toS, (atS) => 2 + PACE * (atS - 100)));
  /** The moment stands anywhere about where it was written, less likely by its errors of 2.5 s, tried each half second: nearly so, for where fewer samples stand beyond it they speak the less against it. */
  const tried = (fromS: number, toS: number) => {
    const offs = Array.from({ length: 2 * (toS - fromS) + 1 }, (_, i) => fromS + i / 2);
    const weights = offs.map((s) => Math.exp(-0.5 * (s / 2.5) ** 2));
    const total = weights.reduce((a, b) => a + b, 0);
    const mean = offs.reduce((sum, s, i) => sum + (s * (weights[i] ?? 0)) / total, 0);
    const square = offs.reduce((sum, s, i) => sum + ((s - mean) ** 2 * (weights[i] ?? 0)) / total, 0);
    return { mean, u: Math.sqrt(square) };
  };

  // as many samples to either side: from 95 to 105 s
  test("is in doubt by the pace and by where the moment may have been", () => {
    const told = had(loggedAt(line(95, 105), moments("top", 100), []));
    expect(told.unit).toBe("bar");
    expect(told.value).toBeCloseTo(2, 3);
    // tried to the first and last sample it would be 1.35 times as much, to three errors of the moment 1.5 times
    const times = partNamed(told, "moment of the valve") / (PACE * tried(-3, 3).u);
    expect(times).toBeGreaterThan(1);
    expect(times).toBeLessThan(1.12);
    expect(told.parts.map(({ name }) => name).sort()).toEqual([
      "bias of the pressure dial",
      "few readings",
      "moment of the valve",
      "pressure readings",
    ]);
    expect(partNamed(told, "bias of the pressure dial")).toBe(BIAS);
  });

  test("and not within two seconds of the first and last sample", () => {
    const told = had(loggedAt(line(96, 105), moments("top", 100), []));
    const { mean, u } = tried(-2, 3);
    expect((told.value - 2) / PACE).toBeCloseTo(mean, 1);
    expect(partNamed(told, "moment of the valve") / (PACE * u)).toBeCloseTo(1, 1);
  });

  test("is told from three seconds to either side, and not from two", () => {
    const few = (fromS: number, toS: number) =>
      loggedAt(from(sampled(fromS, toS, (atS) => 2 - 0.1 * Math.abs(atS - 100))), moments("top", 100), []);
    expect(few(98, 103)).not.toBeNull();
    expect(few(99, 103)).toBeNull();
    expect(few(98, 102)).toBeNull();
  });
});

/** Up to a lift at 100 s and down from it, three times; what else is read stands elsewhere. */
const peak = (topBar: number, atS: number) =>
  sampled(atS - 20, atS + 20, (s) => topBar - 0.02 * Math.abs(s - atS));

describe("lifts from the samples about them", () => {
  const tops = [3.1, 3.13, 3.25];
  const all = tops.flatMap((bar, i) => peak(bar, 100 + 200 * i));
  const times = [100, 300, 500];
  const at = (...of: number[]) => had(loggedAt(from(all), moments("lift", ...of), moments("lift", ...times)));

  test("are averaged by their doubts, which grow where they lie further apart than those", () => {
    const single = times.map((atS) => at(atS));
    const weights = single.map((one) => 1 / own(one) ** 2);
    const total = weights.reduce((a, b) => a + b, 0);
    const mean = single.reduce((sum, { value }, i) => sum + (value * (weights[i] ?? 0)) / total, 0);
    const apart = single.reduce((sum, one) => sum + ((one.value - mean) / own(one)) ** 2, 0);
    // Birge's ratio, of three moments: two of them free
    const wider = Math.sqrt(apart / 2);
    expect(wider).toBeGreaterThan(1.5);
    const together = at(...times);
    expect(together.value).toBeCloseTo(mean, 9);
    expect(own(together)).toBeCloseTo(wider / Math.sqrt(total), 9);
    expect(partNamed(together, "bias of the pressure dial")).toBe(BIAS);
  });

  test("that agree are in no more doubt than their own", () => {
    const same = [100, 300].flatMap((atS) => peak(3.1, atS));
    const told = (...of: number[]) =>
      had(loggedAt(from(same), moments("lift", ...of), moments("lift", 100, 300)));
    expect(own(told(100, 300)) / own(told(100))).toBeCloseTo(Math.SQRT1_2, 6);
  });

  test("a reading of the dial among them is none of them", () => {
    const dial: PressureReading = { atS: 101, barG: 2.2, uBar: 0.2, by: "dial" };
    expect(loggedAt(from([...peak(3.1, 100), dial]), moments("lift", 100), [])).toEqual(
      loggedAt(from(peak(3.1, 100)), moments("lift", 100), []),
    );
  });

  test("what stands within two and a half seconds of another mark, or beyond it, says nothing of this one", () => {
    const wild = (firstS: number, lastS: number) =>
      peak(3.1, 100).map((one) => (one.atS >= firstS && one.atS <= lastS ? { ...one, barG: 1 } : one));
    const told = (readings: PressureReading[]) =>
      loggedAt(from(readings), moments("lift", 100), moments("reseat", 91, 109));
    const clean = told(peak(3.1, 100));
    expect(clean).not.toBeNull();
    expect(told(wild(107, 120))).toEqual(clean);
    expect(told(wild(80, 93))).toEqual(clean);
    expect(told(wild(106, 106))).not.toEqual(clean);
    expect(told(wild(94, 94))).not.toEqual(clean);
  });

  test("five seconds with samples are wanted to either side", () => {
    const told = (fromS: number, toS: number) =>
      loggedAt(
        from(peak(3.1, 100).filter(({ atS }) => atS >= fromS && atS <= toS)),
        moments("lift", 100),
        [],
      );
    expect(told(96, 105)).not.toBeNull();
    expect(told(97, 105)).toBeNull();
    expect(told(96, 104)).toBeNull();
    expect(loggedAt(from([]), moments("lift", 100), [])).toBeNull();
  });

  test("and where its marks leave fewer she pops: it is where the pressure turns down", () => {
    const told = had(loggedAt(from(peak(3.1, 101)), moments("lift", 100), moments("reseat", 94, 106)));
    expect(told.value).toBeCloseTo(3.1, 1);
    expect(
      loggedAt(from(peak(3.1, 101).slice(0, 22)), moments("lift", 100), moments("reseat", 94, 106)),
    ).toBe(null);
  });
});

describe("a reseat from the samples about it", () => {
  const bent = (before: number, after: number) =>
    loggedAt(
      from(sampled(80, 120, (s) => 2.7 + (s < 100 ? before : after) * (s - 100))),
      moments("reseat", 100),
      [],
    );

  test("is where the pressure bends up", () => {
    expect(had(bent(-0.03, 0.003)).value).toBeCloseTo(2.7, 2);
    expect(had(bent(-0.03, -0.004)).value).toBeCloseTo(2.7, 2);
  });

  test("is none where it goes on as before, or bends down", () => {
    expect(bent(-0.003, -0.003)).toBeNull();
    expect(bent(0.02, -0.004)).toBeNull();
  });

  // 0.002 of 3 bar a second
  test("is none where the pressure goes on falling by more than 0.006 bar a second", () => {
    expect(bent(-0.03, -0.0052)).not.toBeNull();
    expect(bent(-0.03, -0.0068)).toBeNull();
  });

  test("of several those that bend up speak for all", () => {
    const two = [
      ...sampled(80, 120, (s) => 2.7 + (s < 100 ? -0.03 : 0) * (s - 100)),
      ...sampled(280, 320, (s) => 2.4 - 0.03 * (s - 300)),
    ];
    const told = (...times: number[]) => loggedAt(from(two), moments("reseat", ...times), []);
    expect(told(100, 300)).toEqual(told(100));
  });
});
