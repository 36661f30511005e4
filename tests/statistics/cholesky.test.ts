import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { cholesky } from "../../src/statistics/cholesky.ts";
import { dot } from "../../src/statistics/vector.ts";

const at = (values: Float64Array, index: number) => values[index] ?? Number.NaN;

describe("cholesky", () => {
  test("solves a system worked by hand", () => {
    // [4 2; 2 3] x = [8; 7] has x = [1.25; 1.5]; determinant 8
    const { solve, logDeterminant } = cholesky(Float64Array.of(4, 0, 2, 3), 2);
    const x = solve(Float64Array.of(8, 7));
    expect(at(x, 0)).toBeCloseTo(1.25, 12);
    expect(at(x, 1)).toBeCloseTo(1.5, 12);
    expect(Math.exp(logDeterminant)).toBeCloseTo(8, 12);
  });

  test("gives back what was multiplied, for any positive definite matrix", () => {
    const vector = fc.array(fc.double({ min: -10, max: 10, noNaN: true }), { minLength: 5, maxLength: 5 });
    fc.assert(
      fc.property(fc.array(vector, { minLength: 5, maxLength: 5 }), vector, (rows, x) => {
        const n = 5;
        const a = rows.map((row) => Float64Array.from(row));
        const matrix = new Float64Array(n * n);
        for (let i = 0; i < n; i++) {
          for (let j = 0; j < n; j++) {
            matrix[i * n + j] =
              dot(a[i] ?? new Float64Array(n), a[j] ?? new Float64Array(n)) + (i === j ? 1 : 0);
          }
        }
        const wanted = Float64Array.from(x);
        const b = Float64Array.from({ length: n }, (_, i) =>
          dot(matrix.subarray(i * n, (i + 1) * n), wanted),
        );
        const got = cholesky(Float64Array.from(matrix), n).solve(b);
        for (let i = 0; i < n; i++) expect(at(got, i)).toBeCloseTo(at(wanted, i), 6);
      }),
      { numRuns: 100 },
    );
  });

  test("says which pivot fails where the matrix is not positive definite", () => {
    expect(() => cholesky(Float64Array.of(1, 0, 2, 1), 2)).toThrow(/pivot 1 of 2 is -3/);
  });
});
