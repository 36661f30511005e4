import { expect, test } from "vitest";
import { absent, exact, measured, measuredWithShared, sum } from "../../src/quantity/measured.ts";
import { reported } from "../../src/quantity/reported.ts";

test("a figure is reported with its u, its 95 % interval and its parts without their sources", () => {
  const figure = sum(measured(10, 3, "g", "reading"), measuredWithShared(0, 4, "g", "scale", "engine/feed"));
  expect(reported(figure)).toEqual({
    value: 10,
    u: expect.closeTo(5, 12),
    lo95: expect.closeTo(10 - 5 * 1.959964, 4),
    hi95: expect.closeTo(10 + 5 * 1.959964, 4),
    unit: "g",
    parts: [
      { name: "scale", u: 4 },
      { name: "reading", u: 3 },
    ],
  });
});

test("a part's size is reported without its sense", () => {
  const figure = { value: 1, unit: "g", parts: [{ name: "scale", u: -2, source: "scale" }] };
  expect(reported(figure)).toMatchObject({ u: 2, parts: [{ name: "scale", u: 2 }] });
});

test("an exact figure has no parts and no width", () => {
  expect(reported(exact(2, "1"))).toEqual({ value: 2, u: 0, lo95: 2, hi95: 2, unit: "1" });
});

test("a figure that cannot be had says why", () => {
  expect(reported(absent("no fuel was recorded"))).toEqual({ value: null, why: "no fuel was recorded" });
});
