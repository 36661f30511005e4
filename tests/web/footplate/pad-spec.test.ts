import { expect, test } from "vitest";
import { decimalsOf, digitsFor, stepped, typedValue } from "../../../web/pages/footplate/pad-spec.ts";

test("digits without a point end in the decimals of the division; with a point they stand as typed", () => {
  expect(typedValue("36", 1)).toBe(3.6);
  expect(typedValue("7", 1)).toBe(0.7);
  expect(typedValue("3.55", 1)).toBe(3.55);
  expect(typedValue("12", 0)).toBe(12);
  expect(typedValue("", 1)).toBeNull();
  expect(typedValue(".", 1)).toBeNull();
});

test("a number is as long as the largest that is likely at its division", () => {
  expect(decimalsOf(0.05)).toBe(2);
  expect(decimalsOf(1)).toBe(0);
  expect(digitsFor(4.8, 0.1)).toBe(2);
  expect(digitsFor(21, 0.5)).toBe(3);
  expect(digitsFor(240, 1)).toBe(3);
});

test("a step goes to the next division and never below nothing", () => {
  expect(stepped(3.6, 0.1, 1)).toBe(3.7);
  expect(stepped(3.62, 0.1, -1)).toBe(3.5);
  expect(stepped(0, 0.5, -1)).toBe(0);
});
