import { expect, test } from "vitest";
import { asTaken, plain, typedNumber } from "../../web/words/number.ts";

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
