import { logGamma } from "./student-t-tail.ts";

const CLOSE = 1e-15;
const MOST_TERMS = 10_000;

/**
 * Distribution function of chi-squared: the incomplete gamma function P(n/2, x/2), by its series below the mean and its
 * continued fraction above (Abramowitz and Stegun 6.5.29 and 6.5.31).
 * @param degreesOfFreedom > 0, need not be whole
 * @throws RangeError for other degrees of freedom, or an x that is not a number
 */
export function chiSquaredBelow(x: number, degreesOfFreedom: number): number {
  if (!(degreesOfFreedom > 0 && Number.isFinite(degreesOfFreedom)) || Number.isNaN(x)) {
    throw new RangeError(
      `chiSquaredBelow: ${degreesOfFreedom} degrees of freedom at ${x}, wanted a number above 0 at a number`,
    );
  }
  if (x <= 0) return 0;
  if (x === Number.POSITIVE_INFINITY) return 1;
  const [a, half] = [degreesOfFreedom / 2, x / 2];
  const front = Math.exp(a * Math.log(half) - half - logGamma(a));
  return half < a + 1 ? front * series(half, a) : 1 - front * fraction(half, a);
}

function series(x: number, a: number): number {
  let term = 1 / a;
  let sum = term;
  for (let k = 1; k <= MOST_TERMS && term > CLOSE * sum; k++) {
    term *= x / (a + k);
    sum += term;
  }
  return sum;
}

/** Evaluated by Lentz's method. */
function fraction(x: number, a: number): number {
  let b = x + 1 - a;
  let c = 1e300;
  let d = 1 / b;
  let value = d;
  for (let k = 1; k <= MOST_TERMS; k++) {
    b += 2;
    d = 1 / (b - k * (k - a) * d);
    c = b - (k * (k - a)) / c;
    value *= c * d;
    if (Math.abs(c * d - 1) < CLOSE) break;
  }
  return value;
}
