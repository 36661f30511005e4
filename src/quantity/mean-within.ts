import { normalBelow, normalDensity } from "../statistics/normal-distribution.ts";
import { interval, type Measured, standardUncertainty } from "./measured.ts";

/** Mean and standard deviation of a bell that is cut off at two ends. */
export function bellWithin(
  mean: number,
  sd: number,
  lowest: number,
  highest: number,
): { mean: number; sd: number } {
  const [a, b] = [(lowest - mean) / sd, (highest - mean) / sd];
  // of what lies far out on one side the tails are told, not what is left of 1
  const between = a > 0 ? normalBelow(-a) - normalBelow(-b) : normalBelow(b) - normalBelow(a);
  if (!(between > 0)) return { mean: a > 0 ? lowest : highest, sd: 0 };
  const [atA, atB] = [normalDensity(a), normalDensity(b)];
  const by = (atA - atB) / between;
  const square = 1 + (a * atA - b * atB) / between - by ** 2;
  return { mean: mean + by * sd, sd: sd * Math.sqrt(Math.max(0, square)) };
}

/**
 * The mean of what the figure can be where it must lie between two ends (of a bell cut off at both), with what is left of its u; its
 * ranges are cut there. Where even its 95 % range lies beyond, something was written down wrongly, and it stays as it is.
 */
export function meanWithin(figure: Measured, lowest: number, highest: number): Measured {
  const u = standardUncertainty(figure);
  const [low, high] = interval(figure);
  if (u === 0 || low > highest || high < lowest) return figure;
  const { mean: value, sd } = bellWithin(figure.value, u, lowest, highest);
  const cut = (level: number): [number, number] => {
    const [from, to] = interval(figure, level);
    return [Math.max(from, lowest), Math.min(to, highest)];
  };
  return {
    ...figure,
    value,
    parts: figure.parts.map((part) => ({ ...part, u: (sd / u) * part.u })),
    ...(low < lowest || high > highest ? { range95: cut(0.95), range90: cut(0.9) } : {}),
  };
}
