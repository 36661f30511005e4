import { combined, interval, type Measured, standardUncertainty } from "./measured.ts";

export const product = (a: Measured, b: Measured, unit: string): Measured => {
  const by = [b.value, a.value] as const;
  const even = combined(a.value * b.value, unit, [
    [a, by[0]],
    [b, by[1]],
  ]);
  return a.range95 === undefined && b.range95 === undefined
    ? even
    : unevenly(even, a, b, by, (x, y) => x * y);
};

/** A divisor whose u is more than this part of it makes the range of the quotient uneven. */
const NEARLY_EVEN = 0.05;

/** @throws RangeError for a divisor of 0 */
export const quotient = (a: Measured, b: Measured, unit: string): Measured => {
  if (b.value === 0) throw new RangeError(`quotient: the divisor is 0 ${b.unit}`);
  const by = [1 / b.value, -a.value / b.value ** 2] as const;
  const even = combined(a.value / b.value, unit, [
    [a, by[0]],
    [b, by[1]],
  ]);
  const uneven =
    a.range95 !== undefined ||
    b.range95 !== undefined ||
    standardUncertainty(b) > NEARLY_EVEN * Math.abs(b.value);
  if (!uneven) return even;
  const [low, high] = interval(b);
  return low <= 0 === high <= 0 ? unevenly(even, a, b, by, (x, y) => x / y) : even;
};

/**
 * The range made of each figure's own ends in turn, deviations to either side in quadrature; wider or narrower by as much as
 * the standard uncertainty is by what both owe to one source. Where neither end takes in zero the deviations are those of the
 * logarithms, in which a product is a sum (GUM, 5.1.2 holds for what is linear): two factors of 2 together are one of
 * 2.67, by straight lines only 2.41; of small ones they are the same.
 * @param by how the result goes with each
 */
function unevenly(
  even: Measured,
  a: Measured,
  b: Measured,
  by: readonly [number, number],
  make: (x: number, y: number) => number,
): Measured {
  const moved = [
    ...interval(a).map((end) => make(end, b.value)),
    ...interval(b).map((end) => make(a.value, end)),
  ];
  const byFactors = moved.every((value) => value * even.value > 0);
  const offs = moved.map((value) =>
    byFactors ? Math.sign(even.value) * Math.log(value / even.value) : value - even.value,
  );
  const [a1 = 0, a2 = 0, b1 = 0, b2 = 0] = offs;
  const down = Math.hypot(Math.min(a1, a2, 0), Math.min(b1, b2, 0));
  const up = Math.hypot(Math.max(a1, a2, 0), Math.max(b1, b2, 0));
  const apart = Math.hypot(by[0] * standardUncertainty(a), by[1] * standardUncertainty(b));
  const owed = apart > 0 ? standardUncertainty(even) / apart : 1;
  const end = (off: number) =>
    byFactors ? even.value * Math.exp(Math.sign(even.value) * off) : even.value + off;
  return { ...even, range95: [end(-owed * down), end(owed * up)] };
}
