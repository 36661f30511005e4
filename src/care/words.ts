import type { Service } from "../logbook/service.ts";

/** Two digits that count, three from one on. */
export function shown(value: number): string {
  const size = Math.abs(value);
  if (size === 0) return "0";
  const decimals = Math.max(0, Math.min(4, 1 - Math.floor(Math.log10(size))));
  return value.toFixed(decimals);
}

export const hoursInWords = (hours: number): string =>
  `${hours < 9.95 ? hours.toFixed(1) : Math.round(hours)} h`;

export const counted = (count: number, one: string): string => `${count} ${one}${count === 1 ? "" : "s"}`;

/** A chance as a person says it. */
export const outOf100 = (chance: number): string =>
  chance < 0.01
    ? "less than 1 in 100"
    : chance > 0.99
      ? "more than 99 in 100"
      : `${Math.round(100 * chance)} in 100`;

export const serviceWords: Record<Service["what"], string> = {
  "nipped-up": "nipped up",
  repacked: "repacked",
  "re-seated": "re-seated",
  replaced: "replaced",
  cleaned: "cleaned",
};
