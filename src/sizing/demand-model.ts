import { combined, type Figure, isMeasured, type Measured, type Part } from "../quantity/measured.ts";
import { whyNoLine, whyTooFar } from "./load-line.ts";
import { type Observation, type Predictive, predictiveOf } from "./predictive.ts";
import { ownAndShared } from "./run-figures.ts";

/** One run's figure with the load that it was run at. */
export interface RunFigure {
  figure: Figure;
  trainMassKg: number | null;
}

export interface DemandModel {
  /** for bounds and ranges, which promise whatever the spread is */
  readonly predictive: Predictive;
  /** for probabilities: the spread is thought to be about a usual one until the runs tell better */
  readonly belief: Predictive;
  /** the same of the logarithm, for what strays farther above than below; null where no figure is above 0 */
  readonly beliefOfLogarithm: Predictive | null;
  runs: number;
  /** the runs' loads differ enough that the figure was read off a line at the planned load */
  byLoad: boolean;
  /** why the runs tell no line in the load; null where they do, whether or not a load is planned */
  noLine: string | null;
  /** runs without a recorded load, which cannot lie on the line */
  leftAside: number;
  /** whether the planned load lies outside those of the runs */
  beyondLoads: boolean;
  /** why the line is not carried as far as the planned load; null where it is, or where there is none */
  tooFar: string | null;
  /** what all runs share, one part a source, signed */
  sharedParts: readonly Part[];
}

export interface DemandOptions {
  /** spread of runs as a part of the figure, where one run alone tells none */
  spreadRelative?: number | undefined;
  /** the same in the figure's own unit, which goes before */
  spread?: number | undefined;
  /** load of the planned run */
  trainMassKg?: number | undefined;
}

/** One run tells no spread: so much is taken for granted (practice; the owner may say otherwise). */
export const ASSUMED_SPREAD = 0.15;
/** What is taken for granted is cautious: the usual spread is less, and half to twice it holds two engines in three (our estimate). */
const USUAL = { ofAssumed: 0.75, logSd: 0.7 };
/**
 * What the next run may need for one lap, minute or metre, from runs of one engine.
 * @returns null where no run gives the figure
 */
export function demandModelOf(runs: readonly RunFigure[], options: DemandOptions): DemandModel | null {
  const telling = runs.filter((run): run is { figure: Measured; trainMassKg: number | null } =>
    isMeasured(run.figure),
  );
  const noLine = whyNoLine(telling.map(({ trainMassKg }) => trainMassKg));
  const byLoad = options.trainMassKg !== undefined && noLine === null;
  const given = byLoad ? telling.filter(({ trainMassKg }) => trainMassKg !== null) : telling;
  const [first] = given;
  if (first === undefined) return null;
  const loads = given.flatMap(({ trainMassKg }) => (trainMassKg === null ? [] : [trainMassKg]));
  const [lightest, heaviest] = [Math.min(...loads), Math.max(...loads)];
  const { sharedParts, ownUs } = errorsOf(given.map(({ figure }) => figure));
  const observations = given.map(
    ({ figure, trainMassKg }, i): Observation => ({
      value: figure.value,
      u: ownUs[i] ?? 0,
      ...(byLoad ? { load: trainMassKg ?? 0 } : {}),
    }),
  );
  const assumedSpread =
    options.spread ?? (options.spreadRelative ?? ASSUMED_SPREAD) * Math.abs(first.figure.value);
  const ofAll = {
    sharedU: Math.hypot(...sharedParts.map((part) => part.u)),
    assumedSpread,
    ...(byLoad && options.trainMassKg !== undefined ? { atLoad: options.trainMassKg } : {}),
  };
  const predictive = once(() => predictiveOf(observations, ofAll));
  const usualSpread = { median: USUAL.ofAssumed * assumedSpread, logSd: USUAL.logSd };
  const belief = once(() => predictiveOf(observations, { ...ofAll, usualSpread }));
  const beliefOfLogarithm = once(() => {
    const spread = options.spreadRelative ?? ASSUMED_SPREAD;
    return demandModelOf(logarithmsOf(given), { spread, trainMassKg: options.trainMassKg })?.belief ?? null;
  });
  const planned = options.trainMassKg;
  const beyondLoads = planned !== undefined && loads.length > 0 && (planned < lightest || planned > heaviest);
  return {
    get predictive() {
      return predictive();
    },
    get belief() {
      return belief();
    },
    get beliefOfLogarithm() {
      return beliefOfLogarithm();
    },
    runs: given.length,
    byLoad,
    noLine,
    leftAside: telling.length - given.length,
    beyondLoads,
    tooFar: byLoad && planned !== undefined ? whyTooFar(loads, planned) : null,
    sharedParts,
  };
}

/** Why a line through the runs tells no amount at the planned load; null where the model is to be reckoned with. */
export function whyNoAmount({ predictive, byLoad, tooFar }: DemandModel): string | null {
  if (tooFar !== null) return tooFar;
  return byLoad && !(predictive.mean > 0)
    ? "the line through the runs comes to nothing at the planned load"
    : null;
}

const logarithmsOf = (runs: readonly { figure: Measured; trainMassKg: number | null }[]): RunFigure[] =>
  runs.flatMap(({ figure, trainMassKg }) =>
    figure.value > 0
      ? [{ figure: combined(Math.log(figure.value), "1", [[figure, 1 / figure.value]]), trainMassKg }]
      : [],
  );

/** Reckoned when first asked for, and kept. */
function once<T>(reckon: () => T): () => T {
  let known: { value: T } | null = null;
  return () => {
    known ??= { value: reckon() };
    return known.value;
  };
}

/**
 * A shared error is as large in the mean of the runs as it is in the runs on average. A source that one alone of
 * several runs names is that run's own.
 */
function errorsOf(figures: readonly Measured[]): { sharedParts: Part[]; ownUs: number[] } {
  const parted = figures.map((figure) => ownAndShared(figure));
  const runsNaming = (source: string) => parted.filter(({ shared }) => shared.has(source)).length;
  const isShared = (source: string) => figures.length === 1 || runsNaming(source) > 1;
  const bySource = new Map<string, Part>();
  const ownUs = parted.map(({ own, shared }, i) => {
    let all = own;
    for (const [source, u] of shared) {
      if (!isShared(source)) {
        all = Math.hypot(all, u);
        continue;
      }
      const name = figures[i]?.parts.find((part) => part.source === source)?.name ?? source;
      const before = bySource.get(source)?.u ?? 0;
      bySource.set(source, { name, source, u: before + u / figures.length });
    }
    return all;
  });
  return { sharedParts: [...bySource.values()], ownUs };
}
