const stepsS = [60, 120, 300, 600, 900, 1200, 1800, 3600, 7200, 10_800, 21_600, 43_200, 86_400];

/** Whole minutes from `fromS` to `toS`, at most about `most` of them. */
export function timeTicks(fromS: number, toS: number, most: number): { value: number }[] {
  const span = Math.max(60, toS - fromS);
  const step =
    stepsS.find((candidate) => span / candidate <= most) ?? 86_400 * Math.ceil(span / 86_400 / most);
  const ticks: { value: number }[] = [];
  for (let at = Math.ceil(fromS / step) * step + 0; at <= toS; at += step) ticks.push({ value: at });
  return ticks;
}
