import { expect, test } from "vitest";
import {
  decimalsOf,
  digitsFor,
  isWhole,
  stepped,
  typedValue,
} from "../../../web/pages/footplate/pad-spec.ts";

const bar = { step: 0.1, largest: 6.4 };

test("digits without a point end in the decimals of the division; with a point they stand as typed", () => {
  expect(typedValue("36", bar)).toBe(3.6);
  expect(typedValue("7", bar)).toBe(0.7);
  expect(typedValue("3.55", bar)).toBe(3.55);
  expect(typedValue("12", { step: 1, largest: 240 })).toBe(12);
  expect(typedValue("", bar)).toBeNull();
  expect(typedValue(".", bar)).toBeNull();
});

test("a number that may end before its point is taken for what is nearer to the likely one, by ratio", () => {
  expect(typedValue("4", bar, 4.2)).toBe(4);
  expect(typedValue("4", bar, 0.3)).toBe(0.4);
  expect(typedValue("04", bar, 4.2)).toBe(0.4);
  expect(typedValue("42", bar, 0.3)).toBe(4.2);
  const mm = { step: 0.5, largest: 21 };
  expect(typedValue("12", mm, 14)).toBe(12);
  expect(typedValue("12", mm, 1.5)).toBe(1.2);
  expect(typedValue("95", mm, 12)).toBe(9.5);
  expect(typedValue("120", mm, 1.5)).toBe(12);
});

test("a number is whole where no further digit can belong to it, and never where one can or it has a point", () => {
  expect(isWhole("4", bar)).toBe(false);
  expect(isWhole("42", bar)).toBe(true);
  expect(isWhole("4.2", bar)).toBe(false);
  const ml = { step: 1, largest: 240 };
  expect(isWhole("99", ml)).toBe(false);
  expect(isWhole("120", ml)).toBe(true);
  const litres = { step: 1, largest: 3200 };
  // 3200 may still come of it, 3300 not
  expect(isWhole("320", litres)).toBe(false);
  expect(isWhole("321", litres)).toBe(true);
  expect(isWhole("3200", litres)).toBe(true);
  const psi = { step: 0.5, largest: 128 };
  expect(isWhole("655", psi)).toBe(true);
  expect(isWhole("125", psi)).toBe(false);
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
