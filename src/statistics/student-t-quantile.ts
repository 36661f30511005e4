/** Steps of the continued fraction and of Newton's method, at most; both are done far sooner. */
const MOST_TERMS = 10_000;
const MOST_STEPS = 60;
const CLOSE = 1e-15;

/**
 * Quantile of Student's t for a probability above a half.
 * The tail is the incomplete beta function I_x(n/2, 1/2), x = n/(n + t^2) (Abramowitz and Stegun, 26.7.1 and 26.5.27), by its
 * continued fraction (26.5.8); Newton's method from the normal quantile finds where it is 1 - probability.
 * @param probability above 0.5, below 1
 * @param degreesOfFreedom > 0
 */
export function studentTQuantile(probability: number, degreesOfFreedom: number): number {
  if (!(probability > 0.5 && probability < 1)) {
    throw new RangeError(`studentTQuantile: probability ${probability} is not between 0.5 and 1`);
  }
  if (!(degreesOfFreedom > 0 && Number.isFinite(degreesOfFreedom))) {
    throw new RangeError(`studentTQuantile: ${degreesOfFreedom} degrees of freedom, wanted a number above 0`);
  }
  const wanted = 1 - probability;
  // on the logarithm the tail is nearly straight, which keeps Newton's steps from overshooting
  let logT = Math.log(normalQuantile(wanted));
  for (let step = 0; step < MOST_STEPS; step++) {
    const t = Math.exp(logT);
    const tail = upperTail(t, degreesOfFreedom);
    const slope = (t * density(t, degreesOfFreedom)) / tail;
    const change = Math.log(tail / wanted) / slope;
    logT += change;
    if (Math.abs(change) < CLOSE * 10) break;
  }
  return Math.exp(logT);
}

/** A first value: Abramowitz and Stegun, 26.2.22, good to 0.003; kept above nothing. */
function normalQuantile(tail: number): number {
  const s = Math.sqrt(-2 * Math.log(tail));
  return Math.max(1e-3, s - (2.30753 + 0.27061 * s) / (1 + 0.99229 * s + 0.04481 * s * s));
}

const density = (t: number, n: number): number =>
  Math.exp(logGammaHalfStep(n / 2) - 0.5 * Math.log(n * Math.PI) - ((n + 1) / 2) * Math.log1p((t * t) / n));

function upperTail(t: number, n: number): number {
  const a = n / 2;
  const b = 0.5;
  const ofSquare = t * t + n;
  const x = n / ofSquare;
  const rest = (t * t) / ofSquare;
  // 1/B(a, 1/2), B(a, 1/2) = sqrt(pi) Gamma(a)/Gamma(a + 1/2)
  const front = Math.exp(
    logGammaHalfStep(a) - 0.5 * Math.log(Math.PI) - a * Math.log1p((t * t) / n) + b * Math.log(rest),
  );
  const incomplete =
    x < (a + 1) / (a + b + 2)
      ? (front * betaFraction(x, a, b)) / a
      : 1 - (front * betaFraction(rest, b, a)) / b;
  return incomplete / 2;
}

const TINY = 1e-300;
const sure = (value: number): number => (Math.abs(value) < TINY ? TINY : value);

/** Continued fraction of the incomplete beta function, evaluated by Lentz's method. */
function betaFraction(x: number, a: number, b: number): number {
  let c = 1;
  let d = 1 / sure(1 - ((a + b) * x) / (a + 1));
  let value = d;
  for (let m = 1; m <= MOST_TERMS; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / sure(1 + even * d);
    c = sure(1 + even / c);
    value *= c * d;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / sure(1 + odd * d);
    c = sure(1 + odd / c);
    value *= c * d;
    if (Math.abs(c * d - 1) < CLOSE) return value;
  }
  throw new RangeError(`betaFraction: no end after ${MOST_TERMS} terms at x ${x}, a ${a}, b ${b}`);
}

/** ln Gamma(a + 1/2) - ln Gamma(a): its asymptotic series, after steps up to where it is exact to the last digit. */
export function logGammaHalfStep(a: number): number {
  let steps = 0;
  let at = a;
  for (; at < 30; at++) steps += Math.log(at / (at + 0.5));
  const inverse = 1 / at;
  return (
    steps +
    0.5 * Math.log(at) -
    inverse / 8 +
    inverse ** 3 / 192 -
    inverse ** 5 / 640 +
    (17 * inverse ** 7) / 14_336
  );
}
