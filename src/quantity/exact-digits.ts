/** Digits that count, at most, however little a figure is in doubt. */
const MOST_DIGITS = 4;

/** Decimals, at most, of a figure of this size. */
export const decimalsAllowed = (value: number): number =>
  Math.min(6, Math.max(0, MOST_DIGITS - 1 - Math.floor(Math.log10(Math.abs(value) || 1))));

/** A figure without doubt of its own: four digits that count, none added. */
export function decimalsOfExact(value: number): number {
  if (value === 0) return 0;
  const text = Math.abs(value).toFixed(decimalsAllowed(value));
  return text.includes(".") ? (text.replace(/\.?0+$/, "").split(".")[1]?.length ?? 0) : 0;
}
