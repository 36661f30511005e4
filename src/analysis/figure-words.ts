import type { Reported } from "../quantity/reported.ts";

/** Digits so that the doubt shows in its first two. */
function decimalsFor(u: number, value: number): number {
  const size = u > 0 ? u : Math.abs(value) / 100;
  if (size === 0) return 0;
  return Math.min(6, Math.max(0, 1 - Math.floor(Math.log10(size))));
}

/** `7.9 (7.5 to 8.3) g/min`, or the reason why there is no figure. */
export function figureInWords(figure: Reported, unit: string, factor = 1): string {
  if (figure.value === null) return `not to be had: ${figure.why}`;
  const decimals = decimalsFor((figure.u / 2) * factor, figure.value * factor);
  const show = (value: number) => (value * factor).toFixed(decimals);
  const range = figure.hi95 > figure.lo95 ? ` (${show(figure.lo95)} to ${show(figure.hi95)})` : "";
  return `${show(figure.value)}${range} ${unit}`.trimEnd();
}

/** `1:02:05` or `4:09` from seconds. */
export function clock(seconds: number): string {
  const sign = seconds < 0 ? "-" : "";
  const whole = Math.round(Math.abs(seconds));
  const [h, m, s] = [Math.floor(whole / 3600), Math.floor((whole % 3600) / 60), whole % 60];
  const two = (n: number) => String(n).padStart(2, "0");
  return h > 0 ? `${sign}${h}:${two(m)}:${two(s)}` : `${sign}${m}:${two(s)}`;
}
