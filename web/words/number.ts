import { decimalsOfExact } from "../../src/quantity/exact-digits.ts";

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
