/** One thing that a number can be of. Values are in the unit that is shown. */
export interface Meaning {
  value: string;
  name: string;
  last: number | null;
  /** one division of the gauge or measure */
  step: number;
  /** no more is put in at once: where no further digit can follow, the number is whole */
  largest: number;
}

/** What a pad asks for. */
export interface PadSpec {
  title: string;
  unit: string;
  /** about what a number is likely to be, where it is not certain where its point stands */
  near?: number;
  /** each is a key that keeps the number; there is none where there is only one */
  meanings: readonly Meaning[];
  /** the likely one: it stands chosen */
  meaning: string;
  /** a line under the number, such as what the strokes come to */
  remark?: (value: number, meaning: string) => string;
  /** @param isUsual the last digit kept it under the meaning that stood chosen, and no hand chose that */
  keep: (value: number, meaning: string, isUsual: boolean) => void;
}

/** What is measured beside the track has so many figures at the most; a longer number is known by its size. */
const FIGURES = 3;

/**
 * Typed digits as a value: with a point as they stand, else with the decimals of the division. Digits that are not all
 * there yet, and do not begin with a nought, may end before the point: 4 is 4.0 where that is likelier than 0.4.
 * @param near what the number is likely to be about, by ratio
 */
export function typedValue(
  typed: string,
  { step, largest }: Pick<Meaning, "step" | "largest">,
  near?: number,
): number | null {
  if (typed === "" || typed === ".") return null;
  const value = Number(typed);
  if (!Number.isFinite(value) || typed.includes(".")) return Number.isFinite(value) ? value : null;
  const divided = value / 10 ** decimalsOf(step);
  if (near === undefined || typed.length >= digitsFor(largest, step) || typed.startsWith("0")) return divided;
  return near / divided > value / near ? value : divided;
}

/** Whether no further digit can belong to it: it has as many as the largest, or one more would make it larger still. */
export function isWhole(typed: string, { step, largest }: Pick<Meaning, "step" | "largest">): boolean {
  if (typed.includes(".")) return false;
  if (typed.length >= digitsFor(largest, step)) return true;
  return typed.length >= FIGURES && Number(`${typed}0`) / 10 ** decimalsOf(step) > largest;
}

/** Decimals of a division: 0.05 has two. */
export const decimalsOf = (division: number): number => {
  const text = String(division);
  return text.includes(".") ? text.length - text.indexOf(".") - 1 : 0;
};

/** How many digits a number of this size has at this division. */
export const digitsFor = (largest: number, division: number): number =>
  Math.max(1, String(Math.ceil(largest * 10 ** decimalsOf(division) - 1e-9)).length);

/** One division more or less, on the divisions, and not below nothing. */
export const stepped = (from: number, step: number, by: 1 | -1): number =>
  Math.max(0, Number(((Math.round(from / step) + by) * step).toFixed(6)));
