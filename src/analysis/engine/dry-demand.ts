import {
  absent,
  combined,
  type Figure,
  isMeasured,
  type Measured,
  measuredWithShared,
  standardUncertainty,
  sum,
} from "../../quantity/measured.ts";
import type { Sources } from "../sources.ts";
import {
  boilerWhileRunning,
  type Chest,
  type Cylinders,
  chestOf,
  sweptPerTurnM3,
  trainBar,
} from "./chest.ts";
import { NINETY_FIVE } from "./pull.ts";

/** A clearance that nobody gave, as a part of the swept volume, and its standard uncertainty (common practice: 5 to 12 in 100). */
const CLEARANCE = { usual: 0.08, u: 0.02 };
/** Volume of steam that one turn of the driving wheel takes at chest pressure: swept volume x (cut-off + clearance), m3. */
export const steamVolumePerTurnM3 = ({ clearance = CLEARANCE.usual, ...cylinders }: Cylinders): number =>
  sweptPerTurnM3(cylinders) * (cylinders.cutoff + clearance);

/** Of the volume, as a part of it about 0: where nobody gave the clearance, what it is in doubt by. */
const clearanceDoubt = ({ clearance, cutoff }: Cylinders, id: string): Measured =>
  measuredWithShared(
    0,
    clearance === undefined ? CLEARANCE.u / (cutoff + CLEARANCE.usual) : 0,
    "1",
    "clearance, which was not given",
    `clearance of ${id}`,
  );

/** Of so many drivers the regulator stands open farther than is asked for: evenly anywhere up to wide open (our estimate). */
const WIDE_OPEN = 0.2;

/**
 * Dry steam that a turn would take if nothing condensed and nothing leaked past: volume over the specific volume of dry
 * saturated steam at chest pressure, g; the value at what is usually asked for. The range reaches from what merely turns the
 * wheels and draws the train to the regulator wide open. u is that of drivers of whom most open it as far as is asked for, give or
 * take as much as the lower end lies below, and some farther. Compression is left out.
 */
export function dryDemandOf(from: Sources): Figure {
  const { cylinders, id } = from.locomotive;
  if (cylinders === undefined) return absent("the cylinders' sizes were not recorded");
  const boiler = boilerWhileRunning(from);
  if (!isMeasured(boiler)) return boiler;
  const grams = 1000 * steamVolumePerTurnM3(cylinders);
  const gramsAt = (barG: number): number => grams / from.stateAtPressure(barG).steam.volumeM3PerKg;
  const train = trainBar(from, cylinders);
  const room = clearanceDoubt(cylinders, id);
  const [least, usual] = (["least", "usual"] as const).map((which) =>
    chestOf(which, cylinders, boiler.value, train.value),
  ) as [Chest, Chest];
  const [low, value, high] = [least.barG, usual.barG, boiler.value].map(gramsAt) as [number, number, number];
  const perBar = (high - low) / (boiler.value - least.barG);
  const rest = (chest: Chest): Measured =>
    combined(value, "g/rev", [
      [train, perBar * chest.byTrain],
      [boiler, perBar * chest.byBoiler],
      [room, value],
    ]);
  const beside = (chest: Chest) => NINETY_FIVE * standardUncertainty(rest(chest));
  const uAsked = (value - low) / NINETY_FIVE;
  // of what lies evenly between two ends the mean square from the one is a third of their distance's
  const u = Math.sqrt((1 - WIDE_OPEN) * uAsked ** 2 + (WIDE_OPEN * (high - value) ** 2) / 3);
  const source = `chest pressure of ${id}`;
  const chest = measuredWithShared(0, u, "g/rev", "chest pressure, which is not read", source);
  return {
    ...sum(rest(usual), chest),
    range95: [
      value - Math.hypot(value - low, beside(least)),
      value + Math.hypot(high - value, beside({ ...usual, byBoiler: 1, byTrain: 0 })),
    ],
  };
}
