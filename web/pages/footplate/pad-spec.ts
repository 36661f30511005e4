/** One thing that a number can be of. Values are in the unit that is shown. */
export interface Meaning {
  value: string;
  name: string;
  unit: string;
  last: number | null;
  /** one division of the gauge or measure */
  step: number;
  /** no more is put in at once: where no further digit can follow, the number is whole */
  largest: number;
  /** it has a key of its own for numbers from here on, which are chosen in two taps instead of typed */
  least?: number;
  /** it may be less than nothing: a key for that stands in the place of the point */
  below?: true;
}

/** What a pad asks for. */
export interface PadSpec {
  title: string;
  /** each is a key that keeps the number; there is none where there is only one */
  meanings: readonly Meaning[];
  /** the likely one: it stands chosen */
  meaning: string;
  /** a line under the number, such as what the strokes come to */
  remark?: (value: number, meaning: string) => string;
  keep: (value: number, meaning: string) => void;
}

/** What is measured beside the track has so many figures at the most; what goes on behind them has its point. */
const FIGURES = 3;
/** The key of what is less than nothing. */
export const MINUS = "−";

/**
 * Typed digits as a value, the same digits always as the same: with a point as they stand, else the last of them are the
 * decimals of the division, and 4 is 0.4 until a further digit makes 40 of it 4.0. Of a measure that needs four figures
 * with them they are whole, unless that is more than there is or they begin with a nought.
 */
export function typedValue(
  typed: string,
  { step, largest }: Pick<Meaning, "step" | "largest">,
): number | null {
  const value = typed === "" ? Number.NaN : Number(typed.replace(MINUS, "-"));
  if (!Number.isFinite(value)) return null;
  const isWhole = digitsFor(largest, step) > FIGURES && value <= largest && !typed.startsWith("0");
  return typed.includes(".") || isWhole ? value : value / 10 ** decimalsOf(step);
}

/** Whether no further digit can belong to it: it has as many as the largest, and three at the most. */
export const isWhole = (typed: string, { step, largest }: Pick<Meaning, "step" | "largest">): boolean =>
  !typed.includes(".") && typed.replace(MINUS, "").length >= Math.min(FIGURES, digitsFor(largest, step));

/** Decimals of a division: 0.05 has two. */
export const decimalsOf = (division: number): number => String(division).split(".")[1]?.length ?? 0;

/** How many digits a number of this size has at this division. */
export const digitsFor = (largest: number, division: number): number =>
  Math.max(1, String(Math.ceil(largest * 10 ** decimalsOf(division) - 1e-9)).length);

/** One division more or less, on the divisions, and not below the least. */
export const stepped = (from: number, step: number, by: 1 | -1, least = 0): number =>
  Math.max(least, rounded((Math.round(from / step) + by) * step));

/** The numbers of one key, which are chosen from next: ten of them, by this division. */
export interface Decade {
  from: number;
  by: number;
}

/** So many keys and the way back stand on the lowest screen. */
const DECADES = 17;

/** So many keys of so many steps, the others of so many: the larger a measure, the wider it is divided (our choice). */
const PARTED = [
  [17, 10, 10],
  [15, 10, 50],
  [10, 10, 50],
  [10, 10, 100],
  [17, 100, 100],
  [10, 100, 500],
  [10, 100, 1000],
] as const;

/** Keys for all numbers from the least to the largest. */
export function decadesOf({ step, largest, least = 0 }: Meaning): Decade[] {
  const steps = (largest - least) / step;
  const [fine, width, wide] = PARTED.find(([n, w, v]) => n * w + (DECADES - n) * v > steps) ?? PARTED[6];
  return Array.from({ length: DECADES }, (_, i) => ({
    from: Math.min(i, fine) * width + Math.max(0, i - fine) * wide,
    by: (i < fine ? width : wide) / 10,
  }))
    .filter(({ from }) => from <= steps)
    .map(({ from, by }) => ({ from: rounded(least + from * step), by: rounded(by * step) }));
}

export const rounded = (value: number): number => Number(value.toFixed(6));
