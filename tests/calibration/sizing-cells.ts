import { randomOf } from "../../sample-data/simulator/random.ts";
import { type Observation, predictiveOf } from "../../src/sizing/predictive.ts";
import { normalBelow } from "../../src/statistics/normal-distribution.ts";
import { studentTQuantile } from "../../src/statistics/student-t-quantile.ts";

export interface Cell {
  runs: number;
  /** run-to-run spread and each run's own error, parts of the mean */
  spread: number;
  u: number;
  /** further runs read so much worse */
  poor?: { runs: number; u: number };
}

/** Every count of runs with every spread and every error. */
export const CELLS: readonly Cell[] = [2, 3, 5, 8].flatMap((runs) =>
  [0.05, 0.11, 0.2].flatMap((spread) => [0.01, 0.04, 0.085].map((u) => ({ runs, spread, u }))),
);

export interface Covered {
  /** seasons in 100 whose next run needs no more than the 95 % bound */
  percent: number;
  /** of the seasons, as much less than the binomial one as the run that follows leaves nothing to chance */
  standardError: number;
  /** mean room of the bound over the true mean, against that of the classical limit of the good runs alone */
  roomOverClassical: number;
}

/**
 * The 95 % bound over seasons of an engine whose mean is 1. The run that follows is not drawn: its chance to need no more
 * is known from the truth.
 */
export function coveredOf({ runs, spread, u, poor }: Cell, seasons: number, seed: number): Covered {
  const { normal } = randomOf(seed, "cells");
  const factor = studentTQuantile(0.95, runs - 1) * Math.sqrt(1 + 1 / runs);
  const read = (error: number): Observation => ({
    value: 1 + spread * normal() + error * normal(),
    u: error,
  });
  let [covered, coveredTwice, room, classicalRoom] = [0, 0, 0, 0];
  for (let i = 0; i < seasons; i++) {
    const good = Array.from({ length: runs }, () => read(u));
    const all = [...good, ...Array.from({ length: poor?.runs ?? 0 }, () => read(poor?.u ?? 0))];
    const bound = predictiveOf(all, { sharedU: 0, assumedSpread: 0.15 }).quantile(0.95);
    const chance = normalBelow((bound - 1) / spread);
    covered += chance / seasons;
    coveredTwice += chance ** 2 / seasons;
    room += bound - 1;
    const mean = good.reduce((sum, { value }) => sum + value, 0) / runs;
    const squares = good.reduce((sum, { value }) => sum + (value - mean) ** 2, 0);
    classicalRoom += mean + factor * Math.sqrt(squares / (runs - 1)) - 1;
  }
  return {
    percent: 100 * covered,
    standardError: 100 * Math.sqrt((coveredTwice - covered ** 2) / seasons),
    roomOverClassical: room / classicalRoom,
  };
}
