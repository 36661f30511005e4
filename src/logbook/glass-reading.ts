import type { Entry } from "./entry.ts";
import type { Boiler } from "./locomotive.ts";

/**
 * How a level was read, where not to the millimetre. The format has no key for it: an entry's note says it, in these
 * very words.
 */
export const glassWords = {
  quarters: "read in quarters of the glass",
  below: "water out of sight below the glass",
  above: "water out of sight above the glass",
} as const;
export type GlassReading = "exact" | keyof typeof glassWords;

export function glassReading({ note }: Pick<Entry, "note">): GlassReading {
  const ways = Object.keys(glassWords) as (keyof typeof glassWords)[];
  return ways.find((way) => note?.includes(glassWords[way])) ?? "exact";
}

/** Whether the water stood where the glass shows it; out of sight its mm says only beyond which end it was. */
export const isInSight = (entry: Pick<Entry, "note">): boolean =>
  ["exact", "quarters"].includes(glassReading(entry));

/** The note without those words; undefined where nothing else stood there. */
export function withoutGlassWords(note: string | undefined): string | undefined {
  const way = glassReading({ ...(note === undefined ? {} : { note }) });
  if (note === undefined || way === "exact") return note;
  const rest = note.replace(glassWords[way], "").trim();
  return rest === "" ? undefined : rest;
}

/**
 * The ends of the glass, mm. It reads from its zero at the bottom nut; its top nut is taken as far above the highest
 * level as the bottom nut is below the lowest, as the format does not say where it is (our choice).
 */
export function glassEndsMm(boiler: Pick<Boiler, "lowestLevelMm" | "highestLevelMm">): [number, number] {
  const bottomMm = Math.min(0, boiler.lowestLevelMm);
  return [bottomMm, boiler.highestLevelMm + Math.max(boiler.lowestLevelMm - bottomMm, 1)];
}
