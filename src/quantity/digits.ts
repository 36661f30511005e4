import { decimalsAllowed, decimalsOfExact } from "./exact-digits.ts";

/** A number with so many decimals, a true minus sign, and none before what is printed as nothing. */
export function printed(value: number, decimals: number): string {
  const digits = Math.abs(value).toFixed(decimals);
  return value < 0 && Number(digits) !== 0 ? `\u2212${digits}` : digits;
}

/** A reading as it was taken: no more digits than it has. */
export const asRead = (value: number): string => printed(value, decimalsOfExact(value));

/**
 * Decimals with which a figure is worth printing: the half-width of its interval keeps one digit that
 * counts, two where the first is a 1 (the rounding rule of the Particle Data Group's reviews).
 */
export function decimalsFor(halfWidth: number, value: number): number {
  if (!(halfWidth > 0)) return decimalsOfExact(value);
  const power = Math.floor(Math.log10(halfWidth));
  const lead = halfWidth / 10 ** power;
  const worth = lead < 1.95 ? 1 - power : -power;
  return Math.max(0, Math.min(worth, decimalsAllowed(value)));
}
