import { expect, test } from "vitest";
import {
  decadesOf,
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

test("the same digits are always the same number, whatever was read last", () => {
  expect(typedValue("4", bar)).toBe(0.4);
  expect(typedValue("40", bar)).toBe(4);
  const mm = { step: 0.5, largest: 21 };
  expect(typedValue("15", mm)).toBe(1.5);
  expect(typedValue("150", mm)).toBe(15);
  expect(typedValue("95", mm)).toBe(9.5);
});

test("a number is whole at its third figure, or before where it is as long as the largest, and never where it has a point", () => {
  expect(isWhole("4", bar)).toBe(false);
  expect(isWhole("42", bar)).toBe(true);
  expect(isWhole("4.2", bar)).toBe(false);
  const ml = { step: 1, largest: 240 };
  expect(isWhole("99", ml)).toBe(false);
  expect(isWhole("120", ml)).toBe(true);
  const litres = { step: 1, largest: 3200 };
  expect(isWhole("32", litres)).toBe(false);
  expect(isWhole("320", litres)).toBe(true);
  const psi = { step: 0.5, largest: 128 };
  expect(isWhole("65", psi)).toBe(false);
  expect(isWhole("655", psi)).toBe(true);
});

test("three figures of a gauge that goes to four are whole, but beyond the gauge or after a nought have their point", () => {
  const psi = { step: 0.5, largest: 128 };
  expect(typedValue("125", psi)).toBe(125);
  expect(typedValue("65", psi)).toBe(65);
  expect(typedValue("655", psi)).toBe(65.5);
  expect(typedValue("129", psi)).toBe(12.9);
  expect(typedValue("045", psi)).toBe(4.5);
  const cup = { step: 0.01, largest: 15 };
  expect(typedValue("12", cup)).toBe(12);
  expect(typedValue("012", cup)).toBe(0.12);
  expect(typedValue("123", cup)).toBe(1.23);
});

const measure = (largest: number, step = 1, least?: number) =>
  decadesOf({
    value: "",
    name: "",
    unit: "ml",
    last: null,
    step,
    largest,
    ...(least === undefined ? {} : { least }),
  });

test("a number is chosen by its ten and then alone: a small measure to its last millilitre, a larger one in what it is divided in", () => {
  expect(measure(120)).toEqual(Array.from({ length: 13 }, (_, i) => ({ from: 10 * i, by: 1 })));
  expect(measure(247).slice(-3)).toEqual([
    { from: 140, by: 1 },
    { from: 150, by: 5 },
    { from: 200, by: 5 },
  ]);
  expect(measure(3200).slice(9, 12)).toEqual([
    { from: 900, by: 10 },
    { from: 1000, by: 50 },
    { from: 1500, by: 50 },
  ]);
  expect(measure(44.9, 0.1).slice(9, 11)).toEqual([
    { from: 9, by: 0.1 },
    { from: 10, by: 0.5 },
  ]);
  expect(measure(45, 0.1, 17)[1]).toEqual({ from: 18, by: 0.1 });
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

test("what may be less than nothing is typed after its sign, has as many figures, and steps through nothing", () => {
  const air = { step: 1, largest: 94 };
  expect(typedValue("−", air)).toBeNull();
  expect(typedValue("−5", air)).toBe(-5);
  expect(typedValue("−12", air)).toBe(-12);
  expect(isWhole("−1", air)).toBe(false);
  expect(isWhole("−12", air)).toBe(true);
  expect(stepped(0, 1, -1, Number.NEGATIVE_INFINITY)).toBe(-1);
  expect(stepped(-5, 1, 1, Number.NEGATIVE_INFINITY)).toBe(-4);
});
