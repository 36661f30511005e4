import { expect, test } from "vitest";
import { asTaken, decimalsFor, plain, typedNumber } from "../../web/words/number.ts";

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

test("no figure is printed with more than four digits that count, however little it is in doubt", () => {
  expect(plain(45.0004, decimalsFor(0.00001, 45.0004))).toBe("45.00");
});

test("a figure without doubt is printed as short as it is", () => {
  expect(plain(23, decimalsFor(0, 23))).toBe("23");
  expect(plain(0.75, decimalsFor(0, 0.75))).toBe("0.75");
});

test("a rounded nothing has no minus sign, and a true one has a true minus sign", () => {
  expect(plain(-0.04, 1)).toBe("0.0");
  expect(plain(-1.25, 1)).toBe("\u22121.3");
  expect(plain(12_345, 0)).toBe("12,345");
});

test("a reading keeps the digits it was taken with", () => {
  expect(asTaken(3.6)).toBe("3.6");
  expect(asTaken(11)).toBe("11");
});

test.each([
  ["3,6", 3.6],
  ["3.6", 3.6],
  [" -2 ", -2],
  ["\u22120,5", -0.5],
  [".5", 0.5],
])("%j is typed for %d", (text, value) => {
  expect(typedNumber(text)).toBe(value);
});

test.each(["", "three", "3 6", "1.2.3", "Infinity", "0x10", "--1"])("%j is no number", (text) => {
  expect(typedNumber(text)).toBeNull();
});
