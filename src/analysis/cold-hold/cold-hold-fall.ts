import { fittedLine, type Line } from "../../statistics/line-fit.ts";
import { leakingMeasure, rootAtMeasure, type Softness, softnessBetween } from "./softness.ts";

/** A pressure read while she was held. */
export interface HeldPoint {
  atS: number;
  barG: number;
  /** standard uncertainty of this one, where it was not read off the dial */
  uBar?: number;
}

/** How a pressure fell from the first reading to the last. */
export interface FallenPressure {
  fromBar: number;
  toBar: number;
  /** mean over the time */
  meanBar: number;
  /** at which as much leaks as leaked in the mean */
  leakingBar: number;
  /** water that went out by what the pressure fell, ml */
  lostMl: number;
  /** its standard uncertainty by the readings' own errors, ml */
  uLostMl: number;
}

/** Rounds in which the curve settles about which the readings are weighed. */
const ROUNDS = 6;

/**
 * The fall through which water leaks: in the measure that then falls steadily a straight line, by least squares of the
 * pressures about it; each reading is carried to the measure by the slope that it has there on the line, with its error. A
 * small fall is as straight in the pressure itself. Never below none.
 * @param points two or more in order of time, all with pressure on
 * @param uReadingBar of each by itself, read off the dial
 */
export function fallenPressure(
  points: readonly HeldPoint[],
  uReadingBar: number,
  softness: Softness,
): FallenPressure {
  const startS = points[0]?.atS ?? 0;
  const seconds = (points.at(-1)?.atS ?? 0) - startS;
  const leastRoot = Math.sqrt(uReadingBar);
  let roots = points.map(({ barG }) => Math.sqrt(Math.max(0, barG)));
  let line: Line | null = null;
  for (let round = 0; round < ROUNDS; round++) {
    const { intercept, slope, ...rest } = fittedLine(
      points.map(({ atS, barG, uBar = uReadingBar }, index) => {
        const root = Math.max(leastRoot, roots[index] ?? 0);
        const steepness = softnessBetween(softness, root ** 2) / root;
        const y = leakingMeasure(softness, root) + steepness * (barG - root ** 2);
        return { x: atS - startS, y, uY: steepness * uBar };
      }),
    );
    line = { intercept, slope, ...rest };
    roots = points.map(({ atS }) => rootAtMeasure(softness, intercept + slope * (atS - startS)));
  }
  const { intercept, slope, uIntercept, uSlope, covariance } = line as Line;
  const [first, middle, last] = [0, seconds / 2, seconds].map((s) =>
    rootAtMeasure(softness, intercept + slope * s),
  ) as [number, number, number];
  const [fromBar, toBar] = [first ** 2, last ** 2];
  // of the water in her a step of the measure moves as much as the root
  const [ofIntercept, ofSlope] = [first - last, -last * seconds];
  const variance =
    (ofIntercept * uIntercept) ** 2 + (ofSlope * uSlope) ** 2 + 2 * ofIntercept * ofSlope * covariance;
  return {
    fromBar,
    toBar,
    meanBar: (fromBar + 4 * middle ** 2 + toBar) / 6,
    leakingBar: ((first + 4 * middle + last) / 6) ** 2,
    lostMl: softnessBetween(softness, fromBar, toBar) * (fromBar - toBar),
    uLostMl: Math.sqrt(Math.max(0, variance)),
  };
}
