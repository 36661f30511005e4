import type { z } from "zod";
import type { spaceSchema } from "./tanks-schema.ts";
import { lengthMm, type TypedLength } from "./typed-length.ts";

/** Usual thicknesses, mm (practice). */
export const USUAL = { lagging: 1.2, cleading: 0.3, band: 0.2, clearance: 1.2, plate: 0.7 } as const;

/** From the boiler outwards, all in mm. */
export interface BuildUp {
  boilerRadiusMm: number | null;
  laggingMm: number;
  cleadingMm: number;
  bandMm: number;
  clearanceMm: number;
  gaugeMm: number | null;
  plateworkMm: number;
  rivetsMm: number;
}

export type Space = z.infer<typeof spaceSchema>;

/** A length that the schema has passed, in mm. */
export function checkedMm(typed: TypedLength, scale: number): number {
  const mm = lengthMm(typed, scale);
  if (mm === null) throw new RangeError(`checkedMm: ${JSON.stringify(typed)} is no length`);
  return mm;
}

export function buildUpOf(
  space: Space | undefined,
  scale: number,
  ownDiameterMm: number | undefined,
): BuildUp {
  const or = (typed: TypedLength | undefined, usual: number) =>
    typed === undefined ? usual : checkedMm(typed, scale);
  const diameter = space?.boilerOuterDiameter;
  const diameterMm = diameter === undefined ? ownDiameterMm : checkedMm(diameter, scale);
  return {
    boilerRadiusMm: diameterMm === undefined ? null : diameterMm / 2,
    laggingMm: or(space?.lagging, USUAL.lagging),
    cleadingMm: or(space?.cleading, USUAL.cleading),
    bandMm: or(space?.band, USUAL.band),
    clearanceMm: or(space?.clearance, USUAL.clearance),
    gaugeMm: space?.loadingGauge === undefined ? null : checkedMm(space.loadingGauge, scale),
    plateworkMm: or(space?.platework, 0),
    rivetsMm: or(space?.rivets, 0),
  };
}

/** Outside of the cleading's bands, mm from the boiler's centre line. */
export const cleadingRadiusMm = (up: BuildUp): number =>
  (up.boilerRadiusMm ?? 0) + up.laggingMm + up.cleadingMm + up.bandMm;
