import { normalBelow, normalDensity } from "../statistics/normal-distribution.ts";
import { interval, type Measured, standardUncertainty } from "./measured.ts";

/**
 * The mean of what the figure can be where it must lie between two ends (of a bell cut off at both), with what is left of its u; its
 * ranges are cut there. Where even its 95 % range lies beyond, something was written down wrongly, and it stays as it is.
 */
export function meanWithin(figure: Measured, lowest: number, highest: number): Measured {
  const u = standardUncertainty(figure);
  const [low, high] = interval(figure);
  if (u === 0 || low > highest || high < lowest) return figure;
  const [a, b] = [(lowest - figure.value) / u, (highest - figure.value) / u];
  const [atA, atB, between] = [normalDensity(a), normalDensity(b), normalBelow(b) - normalBelow(a)];
  const by = (atA - atB) / between;
  const left = Math.sqrt(1 + (a * atA - b * atB) / between - by ** 2);
  const cut = (level: number): [number, number] => {
    const [from, to] = interval(figure, level);
    return [Math.max(from, lowest), Math.min(to, highest)];
  };
  return {
    ...figure,
    value: figure.value + by * u,
    parts: figure.parts.map((part) => ({ ...part, u: left * part.u })),
    ...(low < lowest || high > highest ? { range95: cut(0.95), range90: cut(0.9) } : {}),
  };
}
