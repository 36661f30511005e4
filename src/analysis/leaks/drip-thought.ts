import { normalBelow } from "../../statistics/normal-distribution.ts";

/**
 * What one fitting lets out at working pressure before it is caught: of an engine with a quarter of a litre in her boiler
 * one is thought worth mending from 0.3 to 0.5 g/min on and in good order passes a part of that. A larger engine's is let be
 * until it costs as large a part of her water, and one differs from another by a factor of four, as the leaks of whole
 * boilers do (our estimates).
 */
const USUAL = { gPerMin: 0.1, ofBoilerM3: 250e-6, logSd: Math.log(4) };
/** Steps of the sizes tried, alike in their logarithms. */
const STEPS = 80;
/** Beyond so many errors of the weighing, or of so many spreads of fittings, there is nothing. */
const FAR = 5;

/** What a fitting may let out, and how likely, all together 1. */
export type DripSizes = readonly (readonly [gPerMin: number, weight: number])[];

/**
 * What a fitting may let out by what was caught. No scale shows less than nothing, so small catches read high in the mean:
 * an empty cup says that no more was caught than the weighing may be low by, and of a small catch less is likelier than more,
 * for few fittings let out nothing and fewer let out much.
 * @param totalM3 of the boiler
 * @param gPerMin as caught, carried to working pressure; 0 or more
 * @param u of the weighing, of that; above 0
 */
export function dripSizes(totalM3: number, gPerMin: number, u: number): DripSizes {
  const usual = (USUAL.gPerMin * totalM3) / USUAL.ofBoilerM3;
  const least = Math.max(gPerMin - FAR * u, usual * Math.exp(-FAR * USUAL.logSd));
  const step = Math.log((gPerMin + FAR * u) / least) / STEPS;
  const sizes = Array.from({ length: STEPS }, (_, i): [number, number] => {
    const size = least * Math.exp((i + 0.5) * step);
    const off = (gPerMin - size) / u;
    const read = gPerMin > 0 ? Math.exp((-off * off) / 2) : normalBelow(off);
    return [size, read * Math.exp(-0.5 * (Math.log(size / usual) / USUAL.logSd) ** 2)];
  });
  const all = sizes.reduce((sum, [, weight]) => sum + weight, 0);
  return sizes.map(([size, weight]) => [size, weight / all]);
}

/**
 * Mean and standard deviation of what hangs on the size, and how it goes with the size (covariance): by that over the square
 * of the weighing's u it moves as the catch does.
 */
export function overSizes(
  sizes: DripSizes,
  of: (gPerMin: number) => number,
): { mean: number; sd: number; goesWith: number } {
  const over = (what: (gPerMin: number) => number) =>
    sizes.reduce((sum, [size, weight]) => sum + weight * what(size), 0);
  const [mean, middle] = [over(of), over((size) => size)];
  const sd = Math.sqrt(over((size) => (of(size) - mean) ** 2));
  return { mean, sd, goesWith: over((size) => (of(size) - mean) * (size - middle)) };
}
