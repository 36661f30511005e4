import type { Service } from "../logbook/service.ts";
import { printed } from "../quantity/digits.ts";

/** Less than this is nothing, whatever the unit: no catch is weighed to a thousand-millionth. */
const NOTHING = 1e-9;

/** Two digits that count, more where they stand before the point. */
export function shown(value: number): string {
  const size = Math.abs(value);
  if (size < NOTHING) return "0";
  return printed(value, Math.max(0, 1 - Math.floor(Math.log10(size))));
}

export const hoursInWords = (hours: number): string =>
  `${hours < 9.95 ? hours.toFixed(1) : Math.round(hours)} h`;

export const counted = (count: number, one: string): string =>
  `${count} ${one}${count === 1 ? "" : one.endsWith("ch") ? "es" : "s"}`;

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

/** The day of a moment, as the logbook writes it. */
export const dayOf = (atMs: number): string => new Date(atMs).toISOString().slice(0, 10);

/** A sentence as part of another. */
export const lower = (text: string): string => text.replace(/^./, (letter) => letter.toLowerCase());
