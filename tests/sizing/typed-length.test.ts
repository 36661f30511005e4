import { expect, test } from "vitest";
import { lengthMm, lengthWanted, scaleRatio, usualScales } from "../../src/sizing/typed-length.ts";

const oneTo32 = 1 / 32;

test.each([
  [12.5, 12.5],
  ["12.5", 12.5],
  ["12,5 mm", 12.5],
  ["1 in", 25.4],
  ['1.5"', 38.1],
  ["3/4 inch", 19.05],
  ["1 1/2 in", 38.1],
  ["\u00bd in", 12.7],
  ["1\u00bd in", 38.1],
  ["1 \u215c in", 34.925],
  ["-6 mm", -6],
])("%s is %f mm whatever the scale", (typed, mm) => {
  expect(lengthMm(typed, oneTo32)).toBeCloseTo(mm, 9);
  expect(lengthMm(typed, 1)).toBeCloseTo(mm, 9);
});

test("feet are of the full size: nine of them are 85.7 mm at 1:32 and 90.0 mm at 10 mm to the foot", () => {
  expect(lengthMm("9 ft", oneTo32)).toBeCloseTo(85.725, 9);
  expect(lengthMm("9 ft", scaleRatio("10 mm to the foot") ?? 0)).toBeCloseTo(90, 9);
  expect(lengthMm("7 ft 6 in", oneTo32)).toBeCloseTo((7.5 * 304.8) / 32, 9);
  expect(lengthMm("7' 6 1/2\"", oneTo32)).toBeCloseTo(((7 + 6.5 / 12) * 304.8) / 32, 9);
  expect(lengthMm("7′ 6″", oneTo32)).toBeCloseTo((7.5 * 304.8) / 32, 9);
});

test.each(["", "wide", "1/0 in", "3 miles", "1 2", "ft", "12 mm 3", "1e9"])("%j is no length", (typed) => {
  expect(lengthMm(typed, oneTo32)).toBeNull();
});

test("scales are read by their usual writing, and every one that is offered can be read", () => {
  expect(scaleRatio("1:32")).toBe(1 / 32);
  expect(scaleRatio("16 mm to the foot")).toBeCloseTo(16 / 304.8, 12);
  expect(scaleRatio("7/8 in to the foot")).toBeCloseTo(0.875 / 12, 12);
  expect(usualScales.filter((text) => scaleRatio(text) === null)).toEqual([]);
  const none = [
    "32:1",
    "1:0",
    "1:0.5",
    "1:251",
    "1:1e9",
    "",
    "10 mm",
    "0 mm to the foot",
    "400 mm to the foot",
  ];
  expect(none.filter((text) => scaleRatio(text) !== null)).toEqual([]);
  expect(["1:1", "1:250"].map(scaleRatio)).toEqual([1, 1 / 250]);
});

test.each([
  ["6 ft 13 in", "fewer than 12 inches after feet"],
  ["7 ft 12 in", "fewer than 12 inches after feet"],
  ["6.5 ft 3 in", "whole feet before inches"],
  ["7 ft 30 mm", "one unit in a length"],
  ["1 in 5 mm", "one unit in a length"],
  ["6 in 7 ft", "feet first"],
  ["2 ft 3 ft", "one unit in a length"],
  ["3 cm", 'mm, in or ft, not "cm"'],
  ["wide", "a length such as 12.5 (mm)"],
])("%j is refused and says what is wanted: %s", (typed, wanted) => {
  expect(lengthMm(typed, oneTo32)).toBeNull();
  expect(lengthWanted(typed)).toContain(wanted);
});

test("nothing is wanted instead of what is a length", () => {
  expect([12.5, "-6 mm", "6 ft 11 3/4 in", "0 ft 6 in", "6 1/2 ft"].map(lengthWanted)).toEqual([
    null,
    null,
    null,
    null,
    null,
  ]);
  expect(lengthMm("6 1/2 ft", 1)).toBeCloseTo(6.5 * 304.8, 9);
});
