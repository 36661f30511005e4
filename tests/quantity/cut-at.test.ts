import { expect, test } from "vitest";
import { cutAt } from "../../src/quantity/cut-at.ts";
import { interval, measured, standardUncertainty } from "../../src/quantity/measured.ts";

const of = (value: number, u: number) => measured(value, u, "1", "readings");

// 0.65 +/- 1.960 x 0.2 is 0.258 to 1.042; at 90 % 1.645 x 0.2 makes it 0.321 to 0.979
test("a range is cut at what can be, each at its level; value and u stay", () => {
  const cut = cutAt(of(0.65, 0.2), 0, 1);
  expect(interval(cut)).toEqual([expect.closeTo(0.258, 3), 1]);
  expect(interval(cut, 0.9)).toEqual([expect.closeTo(0.321, 3), expect.closeTo(0.979, 3)]);
  expect([cut.value, standardUncertainty(cut)]).toEqual([0.65, 0.2]);
});

test("at both ends", () => {
  expect(interval(cutAt(of(0.5, 0.5), 0, 1))).toEqual([0, 1]);
});

test("one that lies within, or whose value lies beyond, is left as it is", () => {
  for (const figure of [of(0.5, 0.1), of(1.2, 0.3), of(-0.1, 0.3)]) expect(cutAt(figure, 0, 1)).toBe(figure);
});
