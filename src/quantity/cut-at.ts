import { interval, type Measured } from "./measured.ts";

/**
 * The figure with its ranges cut at the lowest and the highest that can be. Where the value itself lies beyond, something was
 * written down wrongly, and nothing is cut.
 */
export function cutAt(figure: Measured, lowest: number, highest: number): Measured {
  if (figure.value < lowest || figure.value > highest) return figure;
  const cut = (level: number): [number, number] => {
    const [low, high] = interval(figure, level);
    return [Math.max(low, lowest), Math.min(high, highest)];
  };
  const [low, high] = interval(figure);
  return low >= lowest && high <= highest ? figure : { ...figure, range95: cut(0.95), range90: cut(0.9) };
}
