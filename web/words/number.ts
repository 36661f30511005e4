/**
 * Decimals with which a figure is worth printing: the half-width of its interval keeps one digit that
 * counts, two where the first is a 1 (the rounding rule of the Particle Data Group's reviews).
 */
export function decimalsFor(halfWidth: number, value: number): number {
  if (!(halfWidth > 0)) return decimalsOfExact(value);
  const power = Math.floor(Math.log10(halfWidth));
  const lead = halfWidth / 10 ** power;
  const worth = lead < 1.95 ? 1 - power : -power;
  return clamp(Math.min(worth, mostDigits - 1 - Math.floor(Math.log10(Math.abs(value) || 1))));
}

/** Digits that count, at most, however little a figure is in doubt. */
const mostDigits = 4;

const clamp = (decimals: number): number => Math.min(6, Math.max(0, decimals));

/** A figure without doubt of its own: four digits that count, none added. */
function decimalsOfExact(value: number): number {
  if (value === 0) return 0;
  const allowed = clamp(mostDigits - 1 - Math.floor(Math.log10(Math.abs(value))));
  const text = Math.abs(value).toFixed(allowed);
  return text.includes(".") ? (text.replace(/\.?0+$/, "").split(".")[1]?.length ?? 0) : 0;
}

/** Making a formatter takes a hundred times as long as using it. */
const formatters = new Map<string, Intl.NumberFormat>();

function formatter(decimals: number, useGrouping: boolean): Intl.NumberFormat {
  const key = `${decimals} ${useGrouping}`;
  const made =
    formatters.get(key) ??
    new Intl.NumberFormat("en-GB", {
      minimumFractionDigits: decimals,
      maximumFractionDigits: decimals,
      useGrouping,
    });
  formatters.set(key, made);
  return made;
}

/** A number as it is printed: grouped from ten thousand up, a true minus sign, never "-0". */
export function plain(value: number, decimals: number): string {
  const rounded = Number(value.toFixed(decimals));
  const size = formatter(decimals, Math.abs(rounded) >= 10_000).format(Math.abs(rounded));
  return rounded < 0 ? `\u2212${size}` : size;
}

/** A reading as it was taken: no more digits than it has. */
export const asTaken = (value: number): string => plain(value, decimalsOfExact(value));

/** What a person typed as a number: comma or point, true minus or hyphen; null where it is none. */
export function typedNumber(text: string): number | null {
  const plainText = text
    .trim()
    .replace(/\u2212/g, "-")
    .replace(",", ".");
  if (!/^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(plainText)) return null;
  const value = Number(plainText);
  return Number.isFinite(value) ? value : null;
}
