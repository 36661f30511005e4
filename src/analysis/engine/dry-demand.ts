import type { Locomotive } from "../../logbook/locomotive.ts";
import { absent, type Figure } from "../../quantity/measured.ts";
import type { Sources } from "../sources.ts";
import { lengthS, underWayStretches } from "../state/phases.ts";

/**
 * Chest pressure is not recorded. Of the boiler's gauge pressure it is anything between next to none (a light train, the
 * regulator barely open) and all of it (regulator wide open). In the mean of usual running with
 * light trains about a third (our estimate: the mean of our invented engines); the range leaves out only what is seldom.
 */
const CHEST = { usual: 0.33, u: 0.21, least: 0.1, most: 1 };

/** Volume of steam that one turn of the driving wheel takes at chest pressure: swept volume x (cut-off + clearance), m3. */
export function steamVolumePerTurnM3(cylinders: NonNullable<Locomotive["cylinders"]>): number {
  const { count, boreMm, strokeMm, rodMm = 0, cutoff, clearance = 0, doubleActing = true } = cylinders;
  const facesMm2 = (Math.PI / 4) * (doubleActing ? 2 * boreMm ** 2 - rodMm ** 2 : boreMm ** 2);
  return count * facesMm2 * strokeMm * 1e-9 * (cutoff + clearance);
}

/**
 * Dry steam that a turn would take if nothing condensed and nothing leaked past: volume over the specific volume of dry
 * saturated steam at chest pressure, g. Compression is left out.
 */
export function dryDemandOf(from: Sources): Figure {
  const { cylinders } = from.locomotive;
  if (cylinders === undefined) return absent("the cylinders' sizes were not recorded");
  const barG = meanWhileRunning(from);
  if (!(barG > 0)) return absent("no pressure was read while she ran");
  const volumeM3 = steamVolumePerTurnM3(cylinders);
  const gramsAt = (share: number): number => {
    const { steam } = from.stateAtPressure(share * barG);
    return steam === null ? Number.NaN : (1000 * volumeM3) / steam.volumeM3PerKg;
  };
  const value = gramsAt(CHEST.usual);
  const u = (gramsAt(CHEST.usual + CHEST.u) - gramsAt(CHEST.usual - CHEST.u)) / 2;
  const source = `chest pressure of ${from.locomotive.id}`;
  return {
    value,
    unit: "g/rev",
    parts: [{ name: "chest pressure, which is not read", source, u }],
    range95: [gramsAt(CHEST.least), gramsAt(CHEST.most)],
  };
}

/** Boiler pressure while she was under way; not a number where she was not. */
function meanWhileRunning(from: Sources): number {
  const underWay = underWayStretches(from.timeline, from.phases);
  const barSeconds = underWay.reduce(
    (sum, [fromS, toS]) => sum + (from.pressure.meanOver(fromS, toS) ?? 0) * (toS - fromS),
    0,
  );
  return barSeconds / lengthS(underWay);
}
