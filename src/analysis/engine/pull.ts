import { absent, type Figure, type Measured, measured, measuredWithShared } from "../../quantity/measured.ts";
import type { Sources } from "../sources.ts";

/** Standard acceleration of gravity, m/s2 (ISO 80000-3). */
const GRAVITY = 9.806_65;
/** Of a pull read once or twice, the relative standard uncertainty of its mean (our estimate). */
const PULL_READ_SELDOM = 0.15;
/**
 * Of a ratio of resistance to weight that the owner gives, its relative standard uncertainty (our estimate: common practice
 * says 1 to 2.5 % of the weight, and one train's own differs with rail, oil and wind). The same train's errs alike in all runs.
 */
const RESISTANCE_GIVEN = 0.1;
/** So many standard deviations to either side hold 95 in 100 of a bell. */
export const NINETY_FIVE = 1.96;
/** Of a train whose ratio nobody gave: 1 to 2.5 % of the weight (common practice), taken as the two ends of 95 in 100. */
const RESISTANCE_USUAL = { ratio: 0.0165, relative: 0.24 };

/** Mean pull on the train: as read, else its weight x the resistance ratio recorded with it, N; null where neither was recorded. */
function pullRecorded(from: Sources): Measured | null {
  const read = from.timeline.of("pull").map((entry) => entry.newtons);
  if (read.length > 0) {
    const mean = read.reduce((sum, one) => sum + one, 0) / read.length;
    if (read.length < 3) return measured(mean, PULL_READ_SELDOM * Math.abs(mean), "N", "pull read seldom");
    const variance = read.reduce((sum, one) => sum + (one - mean) ** 2, 0) / (read.length - 1);
    const u = Math.sqrt(variance / read.length);
    return { value: mean, unit: "N", parts: [{ name: "readings of the pull", u, df: read.length - 1 }] };
  }
  const train = from.steaming.train;
  if (train === undefined || train.massKg === 0 || train.resistanceRatio === undefined) return null;
  const newtons = train.massKg * GRAVITY * train.resistanceRatio;
  // the owner's error is a part of what the train truly asks for, not of what he gives: one in 1 + error is more than 1 on the mean
  const mean = newtons * (1 + RESISTANCE_GIVEN ** 2);
  const given = measuredWithShared(
    mean,
    RESISTANCE_GIVEN * mean,
    "N",
    "resistance of the train, as given",
    `resistance of ${train.massKg} kg at ${train.resistanceRatio}`,
  );
  const most = NINETY_FIVE * RESISTANCE_GIVEN;
  return { ...given, range95: [newtons / (1 + most), newtons / (1 - most)] };
}

/** The same, and why there is none. */
export const pullOf = (from: Sources): Figure =>
  pullRecorded(from) ??
  absent(
    (from.steaming.train?.massKg ?? 0) === 0
      ? "no train and no pull were recorded: give the train's mass and its resistance ratio, or read the pull"
      : "neither the pull nor the train's resistance was recorded: read the pull, or give the ratio of resistance to weight",
  );

/** The pull, and where none can be had what such a train usually asks for; none of a light engine, N. */
export function usualPullOf(from: Sources): Measured {
  const pull = pullRecorded(from);
  if (pull !== null) return pull;
  const massKg = from.steaming.train?.massKg ?? 0;
  const newtons = massKg * GRAVITY * RESISTANCE_USUAL.ratio;
  return measuredWithShared(
    newtons,
    RESISTANCE_USUAL.relative * newtons,
    "N",
    "resistance of the train, as usual",
    `resistance of ${massKg} kg, not given`,
  );
}
