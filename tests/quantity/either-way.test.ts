import { expect, test } from "vitest";
import { eitherWay } from "../../src/quantity/either-way.ts";
import { absent, interval, isMeasured, measured } from "../../src/quantity/measured.ts";

const of = (value: number, u: number) => measured(value, u, "g", "readings");

// 2 +/- 1.960 x 0.1 is 1.804 to 2.196, 3 +/- 1.960 x 0.2 is 2.608 to 3.392; at 90 % 1.836 and 3.329
test("the range goes from the lowest to the highest of both readings, whichever is the figure", () => {
  for (const [figure, other] of [
    [of(2, 0.1), of(3, 0.2)],
    [of(3, 0.2), of(2, 0.1)],
  ] as const) {
    const both = eitherWay(figure, other);
    if (!isMeasured(both)) throw new Error("absent");
    expect(both.value).toBe(figure.value);
    expect(interval(both)).toEqual([expect.closeTo(1.804, 3), expect.closeTo(3.392, 3)]);
    expect(interval(both, 0.9)).toEqual([expect.closeTo(1.836, 3), expect.closeTo(3.329, 3)]);
  }
});

test("without another reading, or where either is not to be had, the figure stays", () => {
  const [figure, none] = [of(2, 0.1), absent("not read")];
  expect(eitherWay(figure, null)).toBe(figure);
  expect(eitherWay(figure, none)).toBe(figure);
  expect(eitherWay(none, figure)).toBe(none);
});
