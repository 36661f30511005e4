/**
 * Cholesky factor of a symmetric positive definite matrix and the solves that go with it.
 * Our own because the water balance factors some dozens of 100 x 100 matrices a report, where matrix classes
 * with element accessors take several times as long. Algorithm: Golub & Van Loan, Matrix Computations, 4.2.
 */
export interface Cholesky {
  /** solves K x = b */
  solve(b: Float64Array): Float64Array;
  logDeterminant: number;
}

/**
 * @param matrix n x n, row by row; only the lower triangle is read; it is overwritten by its factor
 * @throws RangeError where the matrix is not positive definite
 */
export function cholesky(matrix: Float64Array, n: number): Cholesky {
  let logDeterminant = 0;
  for (let i = 0; i < n; i++) {
    const rowI = i * n;
    for (let j = 0; j < i; j++) {
      const rowJ = j * n;
      let sum = at(matrix, rowI + j);
      for (let k = 0; k < j; k++) sum -= at(matrix, rowI + k) * at(matrix, rowJ + k);
      matrix[rowI + j] = sum / at(matrix, rowJ + j);
    }
    let pivot = at(matrix, rowI + i);
    for (let k = 0; k < i; k++) pivot -= at(matrix, rowI + k) ** 2;
    if (!(pivot > 0)) throw new RangeError(`cholesky: pivot ${i} of ${n} is ${pivot}, wanted more than 0`);
    matrix[rowI + i] = Math.sqrt(pivot);
    logDeterminant += Math.log(pivot);
  }
  return { logDeterminant, solve: (b) => solveBoth(matrix, n, b) };
}

function solveBoth(lower: Float64Array, n: number, b: Float64Array): Float64Array {
  const x = b.slice();
  for (let i = 0; i < n; i++) {
    let sum = at(x, i);
    for (let k = 0; k < i; k++) sum -= at(lower, i * n + k) * at(x, k);
    x[i] = sum / at(lower, i * n + i);
  }
  for (let i = n - 1; i >= 0; i--) {
    let sum = at(x, i);
    for (let k = i + 1; k < n; k++) sum -= at(lower, k * n + i) * at(x, k);
    x[i] = sum / at(lower, i * n + i);
  }
  return x;
}

/** Element of an array that is known to reach so far. */
const at = (values: Float64Array, index: number): number => values[index] as number;
