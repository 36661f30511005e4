import type { Simulation } from "../../sample-data/simulator/simulate.ts";
import { drawnBetweenG } from "../../sample-data/simulator/truth-windows.ts";
import type { Analysis } from "../../src/analysis/analyse.ts";
import type { MassReading } from "../../src/analysis/water/mass-reading.ts";
import { waterBalance } from "../../src/analysis/water/water-balance.ts";
import { standardUncertainty } from "../../src/quantity/measured.ts";

/** Points of the true curve that the wander is read from. */
const POINTS = 120;

/**
 * Width of the analysis's steaming rates and water drawn against generalised least squares that is told the true error
 * sizes: the same readings with the same declared errors, but the size and memory of the demand's wander read off the
 * true curve instead of guessed from the readings. Ratios of u; 1 means that not knowing cost nothing.
 */
export function widthsAgainstToldTruth(
  simulation: Simulation,
  analysis: Analysis,
): { name: string; ratio: number }[] {
  const { balance, input } = analysis.water;
  if (balance === null) return [];
  const { truth } = simulation;
  const [fromS, toS] = [Math.max(0, balance.fromS), Math.min(truth.endS, balance.toS)];
  const curve = Array.from({ length: POINTS }, (_, i): MassReading => {
    const atS = fromS + ((toS - fromS) * i) / (POINTS - 1);
    return {
      atS,
      order: i,
      grams: -drawnBetweenG(truth, fromS, atS),
      uGrams: 0.02,
      of: "contents",
      shared: [],
    };
  });
  const seen = waterBalance({ ...input, readings: curve, moves: [], pumpingS: null });
  if (seen === null) return [];
  const size = seen.likeliest.rateGPerS / balance.meanRateGPerS;
  const told = waterBalance(input, [{ size, memoryS: seen.likeliest.memoryS }]);
  if (told === null) return [];

  const windows = [
    { name: "water drawn", fromS: balance.fromS, toS: balance.toS },
    ...analysis.phases.map((phase) => ({
      name: `steaming rate, ${phase.name}`,
      fromS: phase.fromS,
      toS: phase.toS,
    })),
  ];
  return windows.flatMap((window) => {
    const drawn = [[window.toS, 1] as const, [window.fromS, -1] as const];
    const ours = balance.estimate({ unit: "g", drawn });
    const theirs = told.estimate({ unit: "g", drawn });
    return ours === null || theirs === null
      ? []
      : [{ name: window.name, ratio: standardUncertainty(ours) / standardUncertainty(theirs) }];
  });
}
