import { type Figure, interval, isMeasured } from "./measured.ts";

/** The figure with ranges that take in those of another reading of the same entries; as it is where there is none. */
export function eitherWay(figure: Figure, otherwise: Figure | null): Figure {
  if (otherwise === null || !isMeasured(figure) || !isMeasured(otherwise)) return figure;
  const both = (level: number): [number, number] => {
    const [a, b] = [interval(figure, level), interval(otherwise, level)];
    return [Math.min(a[0], b[0]), Math.max(a[1], b[1])];
  };
  return { ...figure, range95: both(0.95), range90: both(0.9) };
}
