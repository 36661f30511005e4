import { type Figure, isMeasured, type Measured, type Part } from "../quantity/measured.ts";
import { type Observation, type Predictive, predictiveOf } from "./predictive.ts";
import { ownAndShared } from "./run-figures.ts";

/** One run's figure with the load that it was run at. */
export interface RunFigure {
  figure: Figure;
  trainMassKg: number | null;
}

export interface DemandModel {
  predictive: Predictive;
  runs: number;
  /** the runs' loads differ enough that the figure was read off a line at the planned load */
  byLoad: boolean;
  /** whether the planned load lies outside those of the runs */
  beyondLoads: boolean;
  /** what all runs share, one part a source, signed */
  sharedParts: readonly Part[];
}

/** One run tells no spread: so much is taken for granted (practice; the owner may say otherwise). */
export const ASSUMED_SPREAD = 0.15;
/** Runs with a load, and how far loads must differ, before a line is drawn through them (our choice). */
const FEWEST_FOR_LINE = 5;
const LEAST_RANGE = 0.2;

/**
 * What the next run may need for one lap, minute or metre, from runs of one engine.
 * @returns null where no run gives the figure
 */
export function demandModelOf(
  runs: readonly RunFigure[],
  options: { spreadRelative?: number | undefined; trainMassKg?: number | undefined },
): DemandModel | null {
  const given = runs.filter((run): run is { figure: Measured; trainMassKg: number | null } =>
    isMeasured(run.figure),
  );
  const [first] = given;
  if (first === undefined) return null;
  const loads = given.flatMap(({ trainMassKg }) => (trainMassKg === null ? [] : [trainMassKg]));
  const [lightest, heaviest] = [Math.min(...loads), Math.max(...loads)];
  const byLoad =
    options.trainMassKg !== undefined &&
    given.length >= FEWEST_FOR_LINE &&
    loads.length === given.length &&
    new Set(loads).size >= 3 &&
    heaviest - lightest >= LEAST_RANGE * heaviest;
  const sharedParts = sharedOf(given.map(({ figure }) => figure));
  const observations = given.map(
    ({ figure, trainMassKg }): Observation => ({
      value: figure.value,
      u: ownAndShared(figure).own,
      ...(byLoad ? { load: trainMassKg ?? 0 } : {}),
    }),
  );
  const predictive = predictiveOf(observations, {
    sharedU: Math.hypot(...sharedParts.map((part) => part.u)),
    assumedSpread: (options.spreadRelative ?? ASSUMED_SPREAD) * Math.abs(first.figure.value),
    ...(byLoad && options.trainMassKg !== undefined ? { atLoad: options.trainMassKg } : {}),
  });
  const planned = options.trainMassKg;
  const beyondLoads = planned !== undefined && loads.length > 0 && (planned < lightest || planned > heaviest);
  return { predictive, runs: given.length, byLoad, beyondLoads, sharedParts };
}

/** A shared error is as large in the mean of the runs as it is in the runs on average. */
function sharedOf(figures: readonly Measured[]): Part[] {
  const bySource = new Map<string, Part>();
  for (const figure of figures) {
    for (const [source, u] of ownAndShared(figure).shared) {
      const name = figure.parts.find((part) => part.source === source)?.name ?? source;
      const before = bySource.get(source)?.u ?? 0;
      bySource.set(source, { name, source, u: before + u / figures.length });
    }
  }
  return [...bySource.values()];
}
