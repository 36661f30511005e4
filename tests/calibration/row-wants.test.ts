import { expect, test } from "vitest";
import type { Coverage } from "./coverage.ts";
import { missedWants } from "./row-wants.ts";

const row = (with_: Partial<Coverage>): Coverage => ({
  name: "water drawn",
  given: 400,
  refused: 0,
  held: 380,
  meanMiss: 0,
  spread: 1,
  relativeU: 0.1,
  worst: { miss: 3, run: 1 },
  widthRatio: null,
  ...with_,
});

test("a row that holds 95 in 100 and leans to neither side misses nothing", () => {
  expect(missedWants(row({}))).toEqual([]);
});

/** Of 400, two standard errors are 2.71 points at 92 % and 1.4 at 98 %, and 0.1 of the mean miss at a spread of 1. */
test.each([
  [{ held: 358 }, []],
  [{ held: 357 }, ["held"]],
  [{ held: 397 }, []],
  [{ held: 398 }, ["held"]],
  [{ meanMiss: -0.199 }, []],
  [{ meanMiss: -0.201 }, ["mean miss"]],
  [{ meanMiss: 0.201 }, ["mean miss"]],
  [{ meanMiss: 0.16, spread: 0.5 }, ["mean miss"]],
  [{ widthRatio: 1.5 }, []],
  [{ widthRatio: 1.51 }, ["width"]],
])("of 400 figures %o misses %o", (with_, missed) => {
  expect(missedWants(row(with_))).toEqual(missed);
});

test("few figures that are all held are no miss, many are", () => {
  expect(missedWants(row({ given: 34, held: 34 }))).toEqual([]);
  expect(missedWants(row({ given: 400, held: 400 }))).toEqual(["held"]);
});

test("of boilers picked because they leak much the range alone is promised, of all their mean too", () => {
  expect(missedWants(row({ name: "loss, logger, large leak", meanMiss: 0.4 }))).toEqual([]);
  expect(missedWants(row({ name: "loss, logger, large leak", held: 340 }))).toEqual(["held"]);
  expect(missedWants(row({ name: "loss, logger", meanMiss: 0.4 }))).toEqual(["mean miss"]);
});

test("a figure never given, and one with no doubt that is wrong, are misses", () => {
  expect(missedWants(row({ given: 0, held: 0, meanMiss: Number.NaN, spread: Number.NaN }))).toContain("held");
  expect(missedWants(row({ meanMiss: Number.POSITIVE_INFINITY, spread: Number.NaN }))).toEqual(["mean miss"]);
});
