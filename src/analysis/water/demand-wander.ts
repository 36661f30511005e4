/**
 * How far the steam drawn may stray from a steady rate: the integral of a rate error that is forgotten
 * exponentially (Ornstein-Uhlenbeck), the simplest stationary model of a demand that wanders.
 * Covariance of the integral started at 0 (Gillespie, Phys. Rev. E 54 (1996) 2084, eq. 3.6 gives its variance).
 * @param x, y times since the start, s; @param memoryS correlation time, s
 * @returns covariance for a rate of unit variance, s2
 */
export function strayCovariance(x: number, y: number, memoryS: number): number {
  const a = x / memoryS;
  const b = y / memoryS;
  return memoryS ** 2 * (2 * Math.min(a, b) + Math.exp(-a) + Math.exp(-b) - Math.exp(-Math.abs(a - b)) - 1);
}
