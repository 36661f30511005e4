/** Coefficients of Hart's approximation 5666 (Computer Approximations, 1968), highest power first, as printed by West. */
const OVER = [
  3.52624965998911e-2, 0.700383064443688, 6.37396220353165, 33.912866078383, 112.079291497871,
  221.213596169931, 220.206867912376,
];
const UNDER = [
  8.83883476483184e-2, 1.75566716318264, 16.064177579207, 86.7807322029461, 296.564248779674,
  637.333633378831, 793.826512519948, 440.413735824752,
];
const FAR = 7.07106781186547;

const polynomial = (coefficients: readonly number[], x: number): number => {
  let value = 0;
  for (const coefficient of coefficients) value = value * x + coefficient;
  return value;
};

/**
 * Standard normal distribution function, absolute error below 1e-14: West, Better approximations to cumulative normal
 * functions, Wilmott Magazine, May 2005.
 * @throws RangeError where z is not a number
 */
export function normalBelow(z: number): number {
  if (Number.isNaN(z)) throw new RangeError("normalBelow: z is NaN, wanted a number");
  const size = Math.abs(z);
  if (size > 37) return z > 0 ? 1 : 0;
  const tail =
    size < FAR
      ? (Math.exp((-size * size) / 2) * polynomial(OVER, size)) / polynomial(UNDER, size)
      : Math.exp((-size * size) / 2) /
        (size + 1 / (size + 2 / (size + 3 / (size + 4 / (size + 0.65))))) /
        Math.sqrt(2 * Math.PI);
  return z > 0 ? 1 - tail : tail;
}

export const normalDensity = (z: number): number => Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
