import { expect, test } from "vitest";
import { asRead, decimalsFor, printed } from "../../src/quantity/digits.ts";
import { decimalsOfExact } from "../../src/quantity/exact-digits.ts";

test.each([
  [0.4, 7.9, 1],
  [3, 42, 0],
  [0.012, 0.09, 3],
  [1.4, 25.7, 1],
  [0.35, 6.4, 1],
  [25, 300, 0],
])("an interval of +/- %d about %d is printed with %d decimals", (half, value, decimals) => {
  expect(decimalsFor(half, value)).toBe(decimals);
});

test.each([
  [-17.94, 1, "−17.9"],
  [17.96, 1, "18.0"],
  [-0.04, 1, "0.0"],
  [-0.06, 1, "−0.1"],
  [0, 0, "0"],
])("%d with %d decimals is printed as %s", (value, decimals, words) => {
  expect(printed(value, decimals)).toBe(words);
});

test.each([
  [-17.9, "−17.9"],
  [30, "30"],
])("a reading of %d is printed with the digits it has", (value, words) => {
  expect(asRead(value)).toBe(words);
});

test.each([
  [0.195, 2, 1],
  [0.1949, 2, 2],
  [1, 2, 1],
  [10, 2, 0],
  [1e-9, 0, 3],
  [1e-9, 1e-5, 6],
  [3000, 12_345, 0],
])(
  "the half-width %d about %d keeps one digit, two where the first is a 1: %d decimals",
  (half, value, decimals) => {
    expect(decimalsFor(half, value)).toBe(decimals);
  },
);

test("no figure is printed with more than four digits that count, however little it is in doubt", () => {
  expect(decimalsFor(0.00001, 45.0004)).toBe(2);
});

test.each([
  [23, 0],
  [0.75, 2],
  [-0.75, 2],
  [0, 0],
  [120, 0],
  [1.23456, 3],
  [0.00012345, 6],
])("%d without doubt is printed as short as it is: %d decimals", (value, decimals) => {
  expect(decimalsOfExact(value)).toBe(decimals);
  expect(decimalsFor(0, value)).toBe(decimals);
});
