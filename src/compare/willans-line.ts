import { type Absent, absent, type Measured, standardUncertainty } from "../quantity/measured.ts";
import { fittedLine, fromScatter } from "../statistics/line-fit.ts";

/** One run: mean power on the train and mean steaming rate while running. */
export interface WillansPoint {
  power: Measured;
  steamingRate: Measured;
}

/** Steam against power (P. W. Willans, Min. Proc. ICE 114, 1893; cited from memory): rate = no-load steam + slope x power. */
export interface WillansLine {
  /** steam that she takes to turn over without a load, g/min */
  noLoad: Measured;
  /** steam for each watt more, g/min/W */
  perWatt: Measured;
}

/** Fewer runs leave too little to judge the line by. */
const LEAST_RUNS = 4;

/**
 * The Willans line through runs of one engine at different loads, both axes in error (W and g/min). Where the runs scatter
 * more than their own uncertainty says, the line's is taken from the scatter.
 */
export function willansLine(runs: readonly WillansPoint[]): WillansLine | Absent {
  if (runs.length < LEAST_RUNS)
    return absent(`${runs.length} runs with a known power; a Willans line wants ${LEAST_RUNS} or more`);
  const powers = runs.map((run) => run.power.value);
  if (Math.max(...powers) === Math.min(...powers)) return absent("all runs were at the same load");
  const declared = fittedLine(
    runs.map(({ power, steamingRate }) => ({
      x: power.value,
      uX: standardUncertainty(power),
      y: steamingRate.value,
      uY: standardUncertainty(steamingRate),
    })),
  );
  const scattered = declared.chiSquared > declared.free;
  const line = scattered ? fromScatter(declared) : declared;
  const figure = (value: number, u: number, unit: string): Measured => ({
    value,
    unit,
    parts: [{ name: "scatter of the runs", u, ...(scattered ? { df: line.free } : {}) }],
  });
  return {
    noLoad: figure(line.intercept, line.uIntercept, "g/min"),
    perWatt: figure(line.slope, line.uSlope, "g/min/W"),
  };
}
