import { expect, test } from "vitest";
import { table1, table2, table10, table11, table34 } from "../../src/steam/coefficients.ts";

/** Terms as the release counts them; sums of each column, so that a digit altered by mistake is seen. */
const columns = (table: readonly (readonly number[])[]): number[] =>
  (table[0] ?? []).map((_, column) => table.reduce((sum, row) => sum + (row[column] ?? Number.NaN), 0));

/** Sum of the numbers' fourteen digits as whole numbers (0.14632971213167e-3 counts 14632971213167): exact. */
const digits = (numbers: readonly number[]): number =>
  numbers.reduce((sum, n) => sum + Number(Math.abs(n).toExponential(13).slice(0, 15).replace(".", "")), 0);
const last = (row: readonly number[]): number => row.at(-1) ?? Number.NaN;

test.each([
  { name: "Table 2", table: table2, terms: 34, exponents: [224, -221] },
  { name: "Table 10", table: table10, terms: 9, exponents: [-9] },
  { name: "Table 11", table: table11, terms: 43, exponents: [389, 771] },
])("$name has $terms terms and its exponents' sums", ({ table, terms, exponents }) => {
  expect(table).toHaveLength(terms);
  expect(columns(table).slice(0, -1)).toEqual(exponents);
});

test("Tables 1 and 34 have 3 and 10 terms here", () => {
  expect([table1.length, table34.length]).toEqual([3, 10]);
});

test.each([
  { name: "Table 1", numbers: table1, sum: 56_670_015_548_270 },
  { name: "Table 2", numbers: table2.map(last), sum: 1_387_963_592_357_707 },
  { name: "Table 10", numbers: table10.map(last), sum: 383_022_916_761_611 },
  { name: "Table 11", numbers: table11.map(last), sum: 1_602_459_936_618_803 },
  { name: "Table 34", numbers: table34, sum: 338_044_259_050_693 },
])("the digits of $name sum to $sum", ({ numbers, sum }) => {
  expect(digits(numbers)).toBe(sum);
});
