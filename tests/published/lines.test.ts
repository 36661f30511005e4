import { describe, expect, test } from "vitest";
import {
  abscissaOf,
  fittedLine,
  fromScatter,
  heightAt,
  lineThroughOrigin,
} from "../../src/statistics/line-fit.ts";
import { relativeError } from "./closeness.ts";
import { bothInError, noIntercept, norris, thermometer, yInError } from "./lines.ts";

const STRD_TOLERANCE = 1e-10;
const pointsOf = (pairs: readonly (readonly [number, number])[], uY: number) =>
  pairs.map(([x, y]) => ({ x, y, uY }));

describe("NIST StRD Norris", () => {
  const declared = fittedLine(pointsOf(norris.points, 1));
  const got = { ...fromScatter(declared), residual: Math.sqrt(declared.chiSquared / declared.free) };

  test.each(Object.entries(norris.wanted))("%s: %d", (what, number) => {
    expect(relativeError(got[what as keyof typeof norris.wanted], number)).toBeLessThan(STRD_TOLERANCE);
  });
  test("no row was dropped", () => expect(norris.points).toHaveLength(36));
});

describe("NIST StRD NoInt1", () => {
  const line = lineThroughOrigin(pointsOf(noIntercept.points, 1));
  const residual = Math.sqrt(line.chiSquared / line.free);

  test("slope, its standard deviation and the residual one", () => {
    expect(relativeError(line.slope, noIntercept.wanted.slope)).toBeLessThan(STRD_TOLERANCE);
    expect(relativeError(line.uSlope * residual, noIntercept.wanted.uSlope)).toBeLessThan(STRD_TOLERANCE);
    expect(relativeError(residual, noIntercept.wanted.residual)).toBeLessThan(STRD_TOLERANCE);
  });
  test("no row was dropped", () => expect(noIntercept.points).toHaveLength(11));
});

describe("ISO/TS 28037:2010", () => {
  const line = fittedLine(pointsOf(yInError.points, yInError.uY));
  test.each(yInError.wanted)("y in error, $what: $number", ({ what, number, tolerance }) => {
    expect(Math.abs(line[what] - number)).toBeLessThanOrEqual(tolerance);
  });
  test("y in error, read backwards", () => {
    const { y, uY, x, uX, tolerance } = yInError.inverse;
    const got = abscissaOf(line, y, uY);
    expect(Math.abs(got.value - x)).toBeLessThanOrEqual(tolerance);
    expect(Math.abs(got.u - uX)).toBeLessThanOrEqual(tolerance);
  });

  const both = fittedLine(bothInError.points);
  test.each(bothInError.wanted)("both axes in error, $what: $number", ({ what, number, tolerance }) => {
    expect(Math.abs(both[what] - number)).toBeLessThanOrEqual(tolerance);
  });
  test("no row was dropped", () => {
    expect([yInError.points.length, yInError.wanted.length]).toEqual([6, 5]);
    expect([bothInError.points.length, bothInError.wanted.length]).toEqual([6, 5]);
  });
});

describe("GUM H.3, calibration of a thermometer", () => {
  const line = fromScatter(
    fittedLine(
      thermometer.readingsC.map((readC, i) => ({
        x: readC - thermometer.zeroC,
        y: thermometer.correctionsC[i] ?? Number.NaN,
        uY: 1,
      })),
    ),
  );
  const at30 = heightAt(line, 30 - thermometer.zeroC);
  const got = {
    ...line,
    correlation: line.covariance / (line.uIntercept * line.uSlope),
    "at 30 °C": at30.value,
    "u at 30 °C": at30.u,
  };
  test.each(thermometer.wanted)("$what: $number", ({ what, number, tolerance }) => {
    expect(Math.abs(got[what] - number)).toBeLessThanOrEqual(tolerance);
  });
  test("no row was dropped", () =>
    expect([thermometer.readingsC.length, thermometer.wanted.length]).toEqual([11, 7]));
});
