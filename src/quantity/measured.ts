import { coverageFactor } from "../statistics/student-t.ts";

/**
 * One contribution to a standard uncertainty (GUM, JCGM 100:2008, 5.1).
 * A part with a `source` is systematic: the same unknown error stands behind every figure that names the
 * source, so `u` is signed (sensitivity x standard uncertainty) and parts of one source add as numbers.
 * A part without one is random: independent of every other part, and adds in quadrature. So a figure with random
 * parts must not be combined with itself, or with one made from it: say what the two share as a source.
 */
export interface Part {
  name: string;
  u: number;
  source?: string;
  /** degrees of freedom of u; absent where it is not from a sample */
  df?: number;
}

/** A figure with what is known of its error. */
export interface Measured {
  value: number;
  unit: string;
  parts: readonly Part[];
  /** the 95 % range, where it does not lie evenly about the value */
  range95?: readonly [number, number];
  /** the 90 % range, where that does not follow from the other */
  range90?: readonly [number, number];
}

/** A figure that cannot be had, and why. */
export interface Absent {
  value: null;
  why: string;
}

export type Figure = Measured | Absent;

export const absent = (why: string): Absent => ({ value: null, why });
export const isMeasured = (figure: Figure): figure is Measured => figure.value !== null;

export const exact = (value: number, unit: string): Measured => ({ value, unit, parts: [] });

/** No part where there is no error; an error that is not known is not none. */
function partsOf(part: Part): Part[] {
  if (!(part.u >= 0)) throw new RangeError(`measured: u of ${part.name} is ${part.u}, permitted 0 or more`);
  return part.u === 0 ? [] : [part];
}

/**
 * A figure with one random error.
 * @throws RangeError for a u below 0 or not a number
 */
export const measured = (value: number, u: number, unit: string, name: string): Measured => ({
  value,
  unit,
  parts: partsOf({ name, u }),
});

/**
 * A figure with one systematic error of the named source.
 * @throws RangeError for a u below 0 or not a number
 */
export const measuredWithShared = (
  value: number,
  u: number,
  unit: string,
  name: string,
  source: string,
): Measured => ({ value, unit, parts: partsOf({ name, u, source }) });

/** Parts with the like of one another put together: one part a source, one part a name of the random ones. */
export function gathered(parts: readonly Part[]): Part[] {
  const systematic = new Map<string, Part>();
  const random = new Map<string, Part>();
  for (const part of parts) {
    if (part.source !== undefined) {
      const before = systematic.get(part.source);
      systematic.set(part.source, before === undefined ? part : { ...before, u: before.u + part.u });
    } else {
      const before = random.get(part.name);
      random.set(part.name, before === undefined ? part : inQuadrature(before, part));
    }
  }
  return [...systematic.values(), ...random.values()].filter((part) => part.u !== 0);
}

function inQuadrature(a: Part, b: Part): Part {
  const u = Math.hypot(a.u, b.u);
  const df = welchSatterthwaite(u, [a, b]);
  return Number.isFinite(df) ? { name: a.name, u, df } : { name: a.name, u };
}

/** Effective degrees of freedom (GUM, G.2b); Infinity where no part is from a sample. */
function welchSatterthwaite(u: number, parts: readonly Part[]): number {
  const sum = parts.reduce((total, part) => total + (part.df === undefined ? 0 : part.u ** 4 / part.df), 0);
  return sum === 0 ? Number.POSITIVE_INFINITY : u ** 4 / sum;
}

/** Combined standard uncertainty. */
export const standardUncertainty = (figure: Measured): number =>
  Math.hypot(...gathered(figure.parts).map((part) => part.u));

export const degreesOfFreedom = (figure: Measured): number =>
  welchSatterthwaite(standardUncertainty(figure), gathered(figure.parts));

/** Interval of the given level about the value: Student's t at the effective degrees of freedom (GUM, G.6.4). */
export function interval(figure: Measured, level = 0.95): [number, number] {
  if (level === 0.9 && figure.range90 !== undefined) return [...figure.range90];
  if (figure.range95 !== undefined) {
    const share =
      level === 0.95
        ? 1
        : coverageFactor(level, Number.POSITIVE_INFINITY) / coverageFactor(0.95, Number.POSITIVE_INFINITY);
    const [low, high] = figure.range95;
    // a range that keeps off zero is one of factors; another is moved end by end
    const moved = (end: number) =>
      end * figure.value > 0
        ? figure.value * (end / figure.value) ** share
        : figure.value + share * (end - figure.value);
    return [moved(low), moved(high)];
  }
  const parts = gathered(figure.parts);
  const u = Math.hypot(...parts.map((part) => part.u));
  if (u === 0) return [figure.value, figure.value];
  const half = u * coverageFactor(level, welchSatterthwaite(u, parts));
  return [figure.value - half, figure.value + half];
}

/**
 * A figure made of others: the law of propagation of uncertainty (GUM, 5.1.2) with the given sensitivities,
 * shared sources kept together.
 */
export function combined(
  value: number,
  unit: string,
  from: readonly (readonly [Measured, number])[],
): Measured {
  const parts = from.flatMap(([figure, sensitivity]) =>
    figure.parts.map((part) => ({
      ...part,
      u: part.source === undefined ? Math.abs(sensitivity * part.u) : sensitivity * part.u,
    })),
  );
  return { value, unit, parts: gathered(parts) };
}

const sameUnit = (a: Measured, b: Measured): string => {
  if (a.unit !== b.unit) throw new TypeError(`a figure in ${a.unit} and one in ${b.unit} do not add`);
  return a.unit;
};

/** a + b. Uneven ranges add end to end, as of parts of one whole. */
export const sum = (a: Measured, b: Measured): Measured => {
  const even = combined(a.value + b.value, sameUnit(a, b), [
    [a, 1],
    [b, 1],
  ]);
  if (a.range95 === undefined && b.range95 === undefined) return even;
  const [fromA, fromB] = [interval(a), interval(b)];
  return { ...even, range95: [fromA[0] + fromB[0], fromA[1] + fromB[1]] };
};

/** a - b: what both owe to one source cancels. */
export const difference = (a: Measured, b: Measured): Measured =>
  combined(a.value - b.value, sameUnit(a, b), [
    [a, 1],
    [b, -1],
  ]);

export const scaled = (a: Measured, factor: number, unit: string): Measured => {
  const even = combined(a.value * factor, unit, [[a, factor]]);
  if (a.range95 === undefined) return even;
  const times = ([low, high]: readonly [number, number]): [number, number] =>
    factor < 0 ? [high * factor, low * factor] : [low * factor, high * factor];
  const range90 = a.range90 === undefined ? {} : { range90: times(a.range90) };
  return { ...even, range95: times(a.range95), ...range90 };
};
