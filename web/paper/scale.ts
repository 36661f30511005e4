/** Straight scales of a chart on paper: figures to points of the drawing. */
export interface Scale {
  low: number;
  high: number;
  ticks: readonly number[];
}

const STEPS = [1, 2, 2.5, 5, 10] as const;

/**
 * Whole steps of 1, 2, 2.5 or 5 that cover the values, at most about `most` of them.
 * @param fromZero starts at 0 unless a value lies below it by more than a twelfth of the highest
 */
export function niceScale(values: readonly number[], most: number, fromZero: boolean): Scale {
  const finite = values.filter(Number.isFinite);
  const highest = finite.reduce((a, b) => Math.max(a, b), fromZero ? 0 : Number.NEGATIVE_INFINITY);
  const lowest = finite.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY);
  if (finite.length === 0) return { low: 0, high: 1, ticks: [0, 1] };
  const start = fromZero && lowest >= -highest / 12 ? 0 : lowest;
  const span = highest > start ? highest - start : Math.max(1, Math.abs(highest) / 10);
  const power = 10 ** Math.floor(Math.log10(span / most));
  const step = power * (STEPS.find((one) => one * power * most >= span) ?? 10);
  const low = Math.floor(start / step + 1e-9) * step;
  const steps = Math.max(1, Math.ceil((Math.max(highest, start + span / 2) - low) / step - 1e-9));
  return {
    low,
    high: low + steps * step,
    ticks: Array.from({ length: steps + 1 }, (_, i) => Number((low + i * step).toPrecision(12))),
  };
}

/** Maps low..high to from..to. */
export const mapping =
  (low: number, high: number, from: number, to: number) =>
  (value: number): number =>
    from + ((value - low) / (high - low)) * (to - from);
