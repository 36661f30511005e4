/** What a pad asks for. Values are in the unit that is shown. */
export interface PadSpec {
  title: string;
  unit: string;
  /** digits typed without a point end in so many decimals: with one, 36 is 3.6 */
  decimals: number;
  /** one division of the gauge or measure */
  step: number;
  /** with so many digits a number is whole, and kept without a further tap where it can be of one thing alone */
  digits: number;
  /** about what a number of fewer digits is likely to be, where it is not certain where its point stands */
  near?: number;
  /** what the number can be of, each a key that keeps; none where there is only one */
  meanings: readonly { value: string; name: string; last: number | null }[];
  /** the likely one */
  meaning: string;
  /** a line under the number, such as what the strokes come to */
  remark?: (value: number, meaning: string) => string;
  keep: (value: number, meaning: string) => void;
}

/**
 * Typed digits as a value: with a point as they stand, else with the decimals of the division. Digits that are not all
 * there yet, and do not begin with a nought, may end before the point: 4 is 4.0 where that is likelier than 0.4.
 * @param near what the number is likely to be about, by ratio
 */
export function typedValue(
  typed: string,
  { decimals, digits, near }: Pick<PadSpec, "decimals" | "digits" | "near">,
): number | null {
  if (typed === "" || typed === ".") return null;
  const value = Number(typed);
  if (!Number.isFinite(value) || typed.includes(".")) return Number.isFinite(value) ? value : null;
  const divided = value / 10 ** decimals;
  if (near === undefined || typed.length >= digits || typed.startsWith("0")) return divided;
  return near / divided > value / near ? value : divided;
}

export const isWhole = (typed: string, spec: PadSpec): boolean =>
  spec.meanings.length < 2 && !typed.includes(".") && typed.length >= spec.digits;

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
