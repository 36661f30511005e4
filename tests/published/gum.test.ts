import { describe, expect, test } from "vitest";
import {
  combined,
  degreesOfFreedom,
  difference,
  interval,
  type Measured,
  measuredWithShared,
  scaled,
  standardUncertainty,
  sum,
} from "../../src/quantity/measured.ts";
import { coverageFactor } from "../../src/statistics/student-t.ts";
import { endGauge, sharedOffsetC, studentT } from "./gum.ts";

describe("GUM H.1, end gauge", () => {
  const figure = (value: number, unit: string, parts: readonly { u: number; df?: number }[]): Measured => ({
    value,
    unit,
    parts: parts.map((part, i) => ({ name: `${unit} ${i}`, ...part })),
  });
  const standard = figure(endGauge.standardNm.value, "nm of standard", [endGauge.standardNm]);
  const gaugeDifference = figure(
    endGauge.differenceNm.value,
    "nm of difference",
    endGauge.differenceNm.parts,
  );
  const { value: ls } = endGauge.standardNm;
  const { value: dAlpha } = endGauge.expansionDifferencePerC;
  const { value: alpha } = endGauge.expansionPerC;
  const { value: theta } = endGauge.temperatureC;
  const { value: dTheta } = endGauge.temperatureDifferenceC;
  const length = combined(ls + endGauge.differenceNm.value - ls * (dAlpha * theta + alpha * dTheta), "nm", [
    [standard, 1 - (dAlpha * theta + alpha * dTheta)],
    [gaugeDifference, 1],
    [figure(dAlpha, "1/°C of difference", [endGauge.expansionDifferencePerC]), -ls * theta],
    [figure(alpha, "1/°C", [endGauge.expansionPerC]), -ls * dTheta],
    [figure(theta, "°C", [endGauge.temperatureC]), -ls * dAlpha],
    [figure(dTheta, "°C of difference", [endGauge.temperatureDifferenceC]), -ls * alpha],
  ]);
  const got = {
    value: length.value,
    "standard uncertainty": standardUncertainty(length),
    "effective degrees of freedom": degreesOfFreedom(length),
  };

  test.each(endGauge.wanted)("$what: $number", ({ what, number, tolerance }) => {
    expect(Math.abs(got[what] - number)).toBeLessThan(tolerance);
  });

  test("no row was dropped", () => {
    expect(endGauge.wanted).toHaveLength(3);
    expect(length.parts).toHaveLength(6); // those of alpha and theta are 0 to first order
  });

  test("the interval takes Student's t at the effective degrees of freedom", () => {
    const [low, high] = interval(length, 0.99);
    expect((high - low) / 2).toBeCloseTo(
      coverageFactor(0.99, degreesOfFreedom(length)) * got["standard uncertainty"],
      6,
    );
    expect(high + low).toBeCloseTo(2 * length.value, 6);
  });
});

describe("GUM H.3, an offset shared by all readings", () => {
  const reading = (value: number, randomU: number): Measured =>
    sum(
      { value, unit: "°C", parts: [{ name: `reading at ${value}`, u: randomU }] },
      measuredWithShared(0, sharedOffsetC, "°C", "offset", "thermometer"),
    );
  const [low, high] = [reading(21.5, 0.003), reading(26.5, 0.004)];

  test("leaves the u of a difference, and so of a slope, as it was", () => {
    expect(standardUncertainty(difference(high, low))).toBeCloseTo(0.005, 12); // 0.003 and 0.004
    const slope = scaled(difference(high, low), 1 / 5, "1");
    expect(standardUncertainty(slope)).toBeCloseTo(0.001, 12);
  });

  test("stands whole in each reading and in their mean", () => {
    expect(standardUncertainty(low)).toBeCloseTo(Math.hypot(0.003, sharedOffsetC), 12);
    const mean = scaled(sum(low, high), 0.5, "°C");
    expect(standardUncertainty(mean)).toBeCloseTo(Math.hypot(0.0025, sharedOffsetC), 12);
  });

  // H.3: intercept u 0.0029 without the offset, 0.00577 with it (the printed figures; 0.0029 allows +-0.00003 in the sum)
  test("makes the intercept's u of 0.0029 into 0.0058", () => {
    const intercept: Measured = { value: -0.1712, unit: "°C", parts: [{ name: "line", u: 0.0029 }] };
    const offset = measuredWithShared(0, sharedOffsetC, "°C", "offset", "thermometer");
    expect(Math.abs(standardUncertainty(sum(intercept, offset)) - 0.00577)).toBeLessThan(0.00003);
  });
});

describe("Student's t, NIST/SEMATECH e-Handbook 1.3.6.7.2", () => {
  test.each(studentT.rows)("$df degrees of freedom: $t", ({ df, t }) => {
    expect(Math.abs(coverageFactor(0.95, df) - t)).toBeLessThan(studentT.tolerance);
  });

  test("no row was dropped", () => expect(studentT.rows).toHaveLength(5));
});
