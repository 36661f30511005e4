import { expect, test } from "vitest";
import { decimalsOf, digitsFor, stepped, typedValue } from "../../../web/pages/footplate/pad-spec.ts";

test("digits without a point end in the decimals of the division; with a point they stand as typed", () => {
  const bar = { decimals: 1, digits: 2 };
  expect(typedValue("36", bar)).toBe(3.6);
  expect(typedValue("7", bar)).toBe(0.7);
  expect(typedValue("3.55", bar)).toBe(3.55);
  expect(typedValue("12", { decimals: 0, digits: 3 })).toBe(12);
  expect(typedValue("", bar)).toBeNull();
  expect(typedValue(".", bar)).toBeNull();
});

test("a number that may end before its point is taken for what is nearer to the likely one, by ratio", () => {
  const bar = { decimals: 1, digits: 2 };
  expect(typedValue("4", { ...bar, near: 4.2 })).toBe(4);
  expect(typedValue("4", { ...bar, near: 0.3 })).toBe(0.4);
  expect(typedValue("04", { ...bar, near: 4.2 })).toBe(0.4);
  expect(typedValue("42", { ...bar, near: 0.3 })).toBe(4.2);
  const mm = { decimals: 1, digits: 3 };
  expect(typedValue("12", { ...mm, near: 14 })).toBe(12);
  expect(typedValue("12", { ...mm, near: 1.5 })).toBe(1.2);
  expect(typedValue("95", { ...mm, near: 12 })).toBe(9.5);
  expect(typedValue("120", { ...mm, near: 1.5 })).toBe(12);
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
