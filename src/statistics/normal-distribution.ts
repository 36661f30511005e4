/**
 * Standard normal distribution function, absolute error below 1e-12: series about 0 (Abramowitz & Stegun 26.2.11),
 * continued fraction in the tails (26.2.14).
 */
export function normalBelow(z: number): number {
  if (Number.isNaN(z)) throw new RangeError("normalBelow: z is NaN, wanted a number");
  if (z > 40) return 1;
  if (z < -40) return 0;
  const density = Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
  if (Math.abs(z) > 4) {
    let fraction = 0;
    for (let k = 60; k >= 1; k--) fraction = k / (Math.abs(z) + fraction);
    const tail = density / (Math.abs(z) + fraction);
    return z > 0 ? 1 - tail : tail;
  }
  let [term, total] = [z, z];
  for (let k = 1; k < 120 && Math.abs(term) > 1e-17; k++) {
    term *= (z * z) / (2 * k + 1);
    total += term;
  }
  return 0.5 + density * total;
}
