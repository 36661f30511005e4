/** A need is never rounded down and a capacity never up; what lies on a step but for the arithmetic stays on it. */
const HAIR = 1e-9;

export function roundedUp(value: number, decimals: number): number {
  const scale = 10 ** decimals;
  return Math.ceil(value * scale - HAIR * Math.max(1, Math.abs(value * scale))) / scale;
}

export function roundedDown(value: number, decimals: number): number {
  return -roundedUp(-value, decimals) + 0;
}

/** To so many digits that count, upwards or downwards. */
export function toDigits(value: number, digits: number, to: "up" | "down"): number {
  if (value === 0) return 0;
  const decimals = Math.max(0, digits - 1 - Math.floor(Math.log10(Math.abs(value))));
  return to === "up" ? roundedUp(value, decimals) : roundedDown(value, decimals);
}

/**
 * What is held and what is needed with as few decimals as tell rightly which is more, and a gap in steps no larger than
 * itself, two at most: 169.97 ml held of 169.93 needed are not "169 of 170", nor are 108.95 of 109.04 "108 of 110".
 */
export function heldAndNeeded(
  held: number,
  needed: number,
): { held: number; needed: number; decimals: number } {
  const enough = held >= needed - HAIR;
  for (const decimals of [0, 1]) {
    const [down, up] = [roundedDown(held, decimals), roundedUp(needed, decimals)];
    const isFine = enough || needed - held >= 10 ** -decimals;
    if (down >= up === enough && isFine) return { held: down, needed: up, decimals };
  }
  const up = roundedUp(needed, 2);
  return {
    held: enough
      ? Math.max(up, roundedDown(held, 2))
      : Math.min(roundedDown(up - 0.01, 2), roundedDown(held, 2)),
    needed: up,
    decimals: 2,
  };
}

/** What is short, ml, as the difference of the two as they are printed. */
export function gapBetween(held: number, needed: number): string {
  const printed = heldAndNeeded(held, needed);
  return (printed.needed - printed.held).toFixed(printed.decimals);
}

/** A probability as it was asked for: 0.999 is 99.9 in a hundred. */
export const inHundred = (probability: number): string => String(Number((100 * probability).toPrecision(6)));

/** How many of a hundred runs, where none is certain and none impossible. */
export function ofHundred(probability: number): string {
  const whole = Math.round(100 * probability);
  if (whole >= 100) return "more than 99";
  return whole <= 0 ? "fewer than 1" : String(whole);
}
