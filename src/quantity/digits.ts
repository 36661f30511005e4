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
export function decimalsOfExact(value: number): number {
  if (value === 0) return 0;
  const allowed = clamp(mostDigits - 1 - Math.floor(Math.log10(Math.abs(value))));
  const text = Math.abs(value).toFixed(allowed);
  return text.includes(".") ? (text.replace(/\.?0+$/, "").split(".")[1]?.length ?? 0) : 0;
}
