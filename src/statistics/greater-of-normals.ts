import { normalBelow } from "./normal-distribution.ts";

/**
 * Mean and standard deviation of the greater of two independent normal variables
 * (Clark, Operations Research 9 (1961) 145, eqs. 2-4).
 * @throws RangeError for a standard deviation below 0
 */
export function greaterOfNormals(
  a: { mean: number; sd: number },
  b: { mean: number; sd: number },
): { mean: number; sd: number } {
  if (!(a.sd >= 0 && b.sd >= 0))
    throw new RangeError(`greaterOfNormals: sd ${a.sd} and ${b.sd}, permitted 0 or more`);
  const apart = Math.hypot(a.sd, b.sd);
  if (apart === 0) return a.mean >= b.mean ? a : b;
  const z = (a.mean - b.mean) / apart;
  const density = Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
  const [aIs, bIs] = [normalBelow(z), normalBelow(-z)];
  const mean = a.mean * aIs + b.mean * bIs + apart * density;
  const square =
    (a.mean ** 2 + a.sd ** 2) * aIs + (b.mean ** 2 + b.sd ** 2) * bIs + (a.mean + b.mean) * apart * density;
  return { mean, sd: Math.sqrt(Math.max(0, square - mean ** 2)) };
}
