import { normalBelow } from "./normal-distribution.ts";

const MOST_STEPS = 500;
const AS_GOOD_AS_NORMAL = 1e6;

/**
 * Chance that Student's t of so many degrees of freedom lies above t: half the regularised incomplete beta function
 * I_x(df/2, 1/2), x = df/(df + t^2) (Abramowitz & Stegun 26.7.1 and 26.5.27), by its continued fraction (26.5.8).
 * @throws RangeError for degrees of freedom not above 0
 */
export function studentUpperTail(t: number, degreesOfFreedom: number): number {
  if (!(degreesOfFreedom > 0)) {
    throw new RangeError(`studentUpperTail: ${degreesOfFreedom} degrees of freedom, wanted more than 0`);
  }
  if (degreesOfFreedom >= AS_GOOD_AS_NORMAL) return normalBelow(-t);
  if (t < 0) return 1 - studentUpperTail(-t, degreesOfFreedom);
  const x = degreesOfFreedom / (degreesOfFreedom + t * t);
  return regularisedBeta(x, degreesOfFreedom / 2, 0.5) / 2;
}

function regularisedBeta(x: number, a: number, b: number): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  const front = Math.exp(logGamma(a + b) - logGamma(a) - logGamma(b) + a * Math.log(x) + b * Math.log1p(-x));
  return x < (a + 1) / (a + b + 2)
    ? (front * betaFraction(x, a, b)) / a
    : 1 - (front * betaFraction(1 - x, b, a)) / b;
}

/** Lentz's way of a continued fraction. */
function betaFraction(x: number, a: number, b: number): number {
  const kept = (value: number) => (Math.abs(value) < 1e-300 ? 1e-300 : value);
  let c = 1;
  let d = 1 / kept(1 - ((a + b) * x) / (a + 1));
  let fraction = d;
  for (let m = 1; m < MOST_STEPS; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / kept(1 + even * d);
    c = kept(1 + even / c);
    fraction *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / kept(1 + odd * d);
    c = kept(1 + odd / c);
    fraction *= d * c;
    if (Math.abs(d * c - 1) < 1e-15) return fraction;
  }
  throw new RangeError(`studentUpperTail: no end after ${MOST_STEPS} steps for a ${a}, b ${b}`);
}

/** Stirling's series after a shift upwards (Abramowitz & Stegun 6.1.41); error below 1e-13. */
export function logGamma(x: number): number {
  let shift = 0;
  let y = x;
  for (; y < 15; y++) shift += Math.log(y);
  const tail = 1 / (12 * y) - 1 / (360 * y ** 3) + 1 / (1260 * y ** 5) - 1 / (1680 * y ** 7);
  return (y - 0.5) * Math.log(y) - y + 0.5 * Math.log(2 * Math.PI) + tail - shift;
}
