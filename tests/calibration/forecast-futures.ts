import { type Figure, interval, isMeasured } from "../../src/quantity/measured.ts";
import { type EndsFuture, endsFuture, fuelFuture } from "./ends-futures.ts";
import { type Foretold, foretold } from "./forecast-runs.ts";
import { isMet, type Threshold, thresholdLine } from "./threshold.ts";

/** Whether each of some answers came true, and of which run it was: answers of one run hang together. */
type Outcome = { seed: number; value: number };

const meanOf = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

/** Mean of outcomes in per cent with its standard error over runs. */
function shareOf(outcomes: readonly Outcome[]): { percent: number; error: number } {
  const mean = meanOf(outcomes.map(({ value }) => value));
  const runs = new Map<number, number>();
  for (const { seed, value } of outcomes) runs.set(seed, (runs.get(seed) ?? 0) + value - mean);
  const squares = [...runs.values()].reduce((sum, astray) => sum + astray ** 2, 0);
  return { percent: 100 * mean, error: (100 * Math.sqrt(squares)) / outcomes.length };
}

const within = (truth: number, [low, high]: readonly [number, number]): number =>
  truth >= low && truth <= high ? 1 : 0;

function held90(name: string, outcomes: readonly Outcome[]): Threshold {
  const { percent, error } = shareOf(outcomes);
  const standardError = error;
  return { name, value: percent, least: 85, most: 95, unit: "%", of: outcomes.length, standardError };
}

/** The 90 % ranges of what is left until the lowest level, and their width. */
export function waterThresholds(seeds: readonly number[], ways: readonly boolean[]): Threshold[] {
  const runs = ways.flatMap((fed) => seeds.map((seed) => foretold(seed, fed)));
  const all = runs.flatMap(({ answers }) => answers);
  const asked = runs.reduce((sum, run) => sum + run.asked, 0);
  const named = ways.length > 1 ? "" : ways[0] ? ", fed until then" : ", never fed";
  const heldOf = (name: string, figureOf: (one: Foretold) => Figure, truthOf: (one: Foretold) => number) =>
    held90(
      `${name}${named}`,
      all.flatMap((one) => {
        const figure = figureOf(one);
        return isMeasured(figure)
          ? [{ seed: one.seed, value: within(truthOf(one), interval(figure, 0.9)) }]
          : [];
      }),
    );
  const given = all.filter(({ forecast }) => isMeasured(forecast.minutesToLowest));
  return [
    heldOf(
      "water above the lowest level: 90 % range holds",
      ({ forecast }) => forecast.waterAboveLowest,
      ({ truth }) => truth.aboveG,
    ),
    heldOf(
      "minutes to the lowest level: 90 % range holds",
      ({ forecast }) => forecast.minutesToLowest,
      ({ truth }) => truth.minutes,
    ),
    heldOf(
      "laps to the lowest level: 90 % range holds",
      ({ forecast }) => forecast.lapsToLowest,
      ({ truth }) => truth.laps,
    ),
    {
      name: `minutes to the lowest level are given${named}`,
      value: (100 * given.length) / asked,
      least: 65,
      most: 100,
      unit: "%",
      of: asked,
    },
    {
      name: `their range against the least that her wander allows${named}`,
      value: medianWidth(given) / leastWidth(given),
      least: 1,
      most: 3,
      unit: "times",
      of: given.length,
    },
  ];
}

const median = (values: number[]): number => values.sort((a, b) => a - b)[values.length >> 1] ?? Number.NaN;

/** Of the range of the minutes, as a part of the truth. */
const medianWidth = (given: readonly Foretold[]): number =>
  median(
    given.map(({ forecast, truth }) => {
      const [low, high] = interval(forecast.minutesToLowest as Parameters<typeof interval>[0], 0.9);
      return (high - low) / truth.minutes;
    }),
  );

/** Of the range that holds 9 in 10 of the futures for one who reads without error: what comes is not what was. */
function leastWidth(given: readonly Foretold[]): number {
  const astray = given.map(({ seerMinutes, truth }) => seerMinutes / truth.minutes).sort((a, b) => a - b);
  const at = (share: number) => astray[Math.floor(share * astray.length)] ?? Number.NaN;
  return at(0.95) - at(0.05);
}

export function fuelThresholds(seeds: readonly number[]): Threshold[] {
  const answers = seeds.flatMap((seed) => fuelFuture(seed).answers);
  const outcomes = answers.map(({ seed, minutes, within90 }) => ({ seed, value: within(minutes, within90) }));
  return [held90("minutes of fuel left: 90 % range holds", outcomes)];
}

/** One bin of the chances said: what was said in the mean, and how often it came. */
export interface EndsBin {
  name: string;
  of: number;
  saidPercent: number;
  camePercent: number;
  /** of what came, were the chances just */
  error: number;
}

const BINS = 5;

export function endsBins(seeds: readonly number[], count = BINS): { bins: EndsBin[]; byFuel: EndsBin[] } {
  const all = [false, true].flatMap((fed) => seeds.flatMap((seed) => endsFuture(seed, fed).answers));
  const binOf = (name: string, list: readonly EndsFuture[]): EndsBin => {
    // answers of one run mostly come true together, so that a run counts as one case
    const runs = new Set(list.map(({ seed }) => seed)).size;
    const error = 100 * Math.sqrt(meanOf(list.map(({ chance }) => chance * (1 - chance))) / runs);
    const saidPercent = 100 * meanOf(list.map(({ chance }) => chance));
    const camePercent = 100 * meanOf(list.map(({ waterFirst }) => Number(waterFirst)));
    return { name, of: list.length, saidPercent, camePercent, error };
  };
  const edge = (bin: number) => Math.round((100 / count) * bin);
  const bins = Array.from({ length: count }, (_, bin) =>
    binOf(
      `said ${edge(bin)} to ${edge(bin + 1)} %`,
      all.filter(({ chance }) => Math.min(count - 1, Math.floor(count * chance)) === bin),
    ),
  );
  const byFuel = (["spirit", "gas", "coal"] as const).map((fuel) =>
    binOf(
      fuel,
      all.filter((one) => one.fuel === fuel),
    ),
  );
  return { bins, byFuel };
}

/** Within 5 points, give or take twice the standard error, as with the futures of tanks. */
export function binThreshold({ name, of, saidPercent, camePercent, error }: EndsBin): Threshold {
  const most = Math.round(10 * (5 + 2 * error)) / 10;
  return {
    name: `the water ends first, ${name}: came less said (${saidPercent.toFixed(0)})`,
    value: camePercent - saidPercent,
    least: -most,
    most,
    unit: "points",
    of,
    standardError: error,
  };
}

/** Prints how the forecasts of the Footplate came true; what was promised and missed is returned. */
export function printForecast(seeds: readonly number[]): Threshold[] {
  const { bins, byFuel } = endsBins(seeds);
  const promised = [
    ...waterThresholds(seeds, [false]),
    ...waterThresholds(seeds, [true]),
    ...fuelThresholds(seeds),
    ...bins.map(binThreshold),
  ];
  const show = (list: readonly Threshold[]) => {
    for (const one of list) console.log(thresholdLine(one, 78));
  };
  console.log(`
Forecasts, asked at three random moments of each run that nobody feeds any more (minutes of fuel: of runs that are fed);
the standard error is over runs. By fuel, where each alone is too few to promise:
`);
  show(promised);
  for (const { name, of, saidPercent, camePercent, error } of byFuel)
    console.log(
      `  ${name}: said ${saidPercent.toFixed(0)}, came ${camePercent.toFixed(0)} +/- ${error.toFixed(0)} % of ${of}`,
    );
  return promised.filter((one) => !isMet(one));
}
