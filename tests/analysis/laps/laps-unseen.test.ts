import { describe, expect, test } from "vitest";
import { unseenLaps } from "../../../src/analysis/laps/laps-unseen.ts";
import { standardUncertainty } from "../../../src/quantity/measured.ts";

const each = (...counts: number[]) => counts.map((count) => ({ count }));
const ten = Array(10).fill(1);

// a gamma prior of mean 0.01 and standard deviation 0.015 has shape 4/9 and rate 400/9
describe("laps lost without a trace", () => {
  test("are the more to be expected, the more were noticed at the next tap or found by their gap", () => {
    const of = (counts: number[], found: number) => unseenLaps(each(...counts), found, false).value;
    expect(of(ten, 0)).toBeCloseTo((10 * 4) / (400 + 90), 9);
    expect(of([...ten, 2], 0)).toBeCloseTo((10 * 13) / 490, 9);
    expect(of([...ten, 2], 1)).toBeCloseTo((10 * 22) / 490, 9);
  });

  test("are in doubt by their chance, and by how forgetful he is", () => {
    const unseen = unseenLaps(each(...ten), 0, false);
    // of a Poisson variate whose mean is 10 gamma variates: mean, and 100 times the variance of the gamma, shape over rate squared
    const ofRate = 100 * (4 / 9 / (400 / 9 + 10) ** 2);
    expect(standardUncertainty(unseen)).toBeCloseTo(Math.sqrt(unseen.value + ofRate), 9);
  });

  test("are none of those counted several at a time, and two at a time is not forgetting", () => {
    expect(unseenLaps(each(5, 8), 0, false)).toMatchObject({ value: 0, parts: [] });
    expect(unseenLaps(each(2, 1, 2), 0, false).value).toBeCloseTo(4 / 409, 9);
  });

  test("are not expected where a gap would show them, in doubt by 1.5 % of all", () => {
    const shown = unseenLaps(each(...ten, 2), 1, true);
    expect([shown.value, standardUncertainty(shown)]).toEqual([0, expect.closeTo(0.015 * 13, 9)]);
  });
});
