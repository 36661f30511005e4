import {
  absent,
  combined,
  type Figure,
  isMeasured,
  measuredWithShared,
  standardUncertainty,
  sum,
} from "../../quantity/measured.ts";
import type { Sources } from "../sources.ts";
import { boilerWhileRunning, type Cylinders, lightBarG, sweptPerTurnM3, trainBar } from "./chest.ts";
import { NINETY_FIVE } from "./pull.ts";

/** Volume of steam that one turn of the driving wheel takes at chest pressure: swept volume x (cut-off + clearance), m3. */
export const steamVolumePerTurnM3 = (cylinders: Cylinders): number =>
  sweptPerTurnM3(cylinders) * (cylinders.cutoff + (cylinders.clearance ?? 0));

/** Three places of a bell, in standard deviations, and their weights: they have the mean and the spread of what goes smoothly over it (Gauss and Hermite). */
const PLACES = [
  [-Math.sqrt(3), 1 / 6],
  [0, 2 / 3],
  [Math.sqrt(3), 1 / 6],
] as const;

/**
 * Dry steam that a turn would take if nothing condensed and nothing leaked past: volume over the specific volume of dry
 * saturated steam at chest pressure, g; the mean over what the chest may have stood at. Compression is left out.
 */
export function dryDemandOf(from: Sources): Figure {
  const { cylinders, id } = from.locomotive;
  if (cylinders === undefined) return absent("the cylinders' sizes were not recorded");
  const boiler = boilerWhileRunning(from);
  if (!isMeasured(boiler)) return boiler;
  const grams = 1000 * steamVolumePerTurnM3(cylinders);
  const gramsAt = (chestBarG: number): number =>
    grams / from.stateAtPressure(Math.min(chestBarG, boiler.value)).steam.volumeM3PerKg;
  const train = trainBar(from, cylinders);
  const chestAt = (place: number) => lightBarG(cylinders, boiler.value, place) + train.bar.value;
  const at = (place: number) => gramsAt(chestAt(place));
  const value = PLACES.reduce((mean, [place, weight]) => mean + weight * at(place), 0);
  const uLight = Math.sqrt(
    PLACES.reduce((variance, [place, weight]) => variance + weight * (at(place) - value) ** 2, 0),
  );
  const perBar = (at(0) - gramsAt(0)) / Math.min(chestAt(0), boiler.value);
  const allOfIt = chestAt(0) > boiler.value;
  const byTrain = allOfIt ? 0 : perBar;
  const byBoiler = perBar * (allOfIt ? 1 : lightBarG(cylinders, 1, 0));
  const rest = combined(value, "g/rev", [
    [train.bar, byTrain],
    [boiler, byBoiler],
  ]);
  const uChest = Math.hypot(uLight, byTrain * train.uEffective);
  const chest = measuredWithShared(
    0,
    uChest,
    "g/rev",
    "chest pressure, which is not read",
    `chest pressure of ${id}`,
  );
  const beside = NINETY_FIVE * Math.hypot(standardUncertainty(rest), byTrain * train.uEffective);
  return {
    ...sum(rest, chest),
    range95: [
      value - Math.hypot(at(-NINETY_FIVE) - value, beside),
      value + Math.hypot(at(NINETY_FIVE) - value, beside),
    ],
  };
}
