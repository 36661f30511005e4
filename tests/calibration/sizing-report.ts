import {
  binned,
  type EnduranceFuture,
  enduranceFutures,
  type Pair,
  promisedOverCame,
  type TankFuture,
  tankFutures,
} from "./sizing-futures.ts";
import { binomialError, isMet, type Threshold, thresholdLine } from "./threshold.ts";

const percent = (share: number): number => 100 * share;

/** Tanks made to the 95 % bound: they suffice as often as promised, and are not made safe by being huge. */
export function tankThresholds(firstSeed: number, count: number): Threshold[] {
  const futures = tankFutures(firstSeed, count);
  const room = futures.map(({ roomOverNeed }) => roomOverNeed).sort((a, b) => a - b);
  const half = room[room.length >> 1] ?? Number.NaN;
  return [
    sufficing("tank made to the 95 % bound suffices", futures, 93, 97),
    {
      name: "such a tank over what was drawn, median",
      value: percent(half),
      least: 100,
      most: 140,
      unit: "%",
      of: count,
    },
  ];
}

/** The same apart by what the season told, for reading: too few of each for a gate. */
function tanksApart(firstSeed: number, count: number): string[] {
  const futures = tankFutures(firstSeed, count);
  const row = (name: string, list: readonly TankFuture[]) => {
    const share = list.filter(({ suffices }) => suffices).length / list.length;
    return `  ${name}: ${percent(share).toFixed(1)} +/- ${binomialError(share, list.length).toFixed(1)} % of ${list.length}`;
  };
  return [
    row(
      "2 to 4 runs",
      futures.filter(({ runs }) => runs <= 4),
    ),
    row(
      "5 to 12 runs",
      futures.filter(({ runs, byLoad }) => runs > 4 && !byLoad),
    ),
    row(
      "5 to 12 runs with several trains, read off the line",
      futures.filter(({ byLoad }) => byLoad),
    ),
  ];
}

function sufficing(
  name: string,
  futures: readonly { suffices: boolean }[],
  least: number,
  most: number,
): Threshold {
  const share = futures.filter(({ suffices }) => suffices).length / futures.length;
  return {
    name,
    value: percent(share),
    least,
    most,
    unit: "%",
    of: futures.length,
    standardError: binomialError(share, futures.length),
  };
}

/** Said probabilities of endurance, in five bins each: said less come, wanted within 5 points. */
export function enduranceThresholds(firstSeed: number, count: number): Threshold[] {
  const futures = enduranceFutures(firstSeed, count);
  const named: [string, (future: EnduranceFuture) => Pair][] = [
    ["fuel ends first", ({ fuelFirst }) => fuelFirst],
    ["water lasts the plan", ({ waterLasts }) => waterLasts],
    ["fuel lasts the plan", ({ fuelLasts }) => fuelLasts],
  ];
  return [...named.flatMap(([name, of]) => binThresholds(name, futures.map(of), 5)), withinRange(futures)];
}

/** Points by which what was said of a bin differs from what came of it. */
export const binThresholds = (name: string, pairs: readonly Pair[], points: number): Threshold[] =>
  binned(pairs).map(({ from, to, count, said, came }) => ({
    name: `${name}, said ${percent(from).toFixed(0)} to ${percent(to).toFixed(0)} %: ${percent(said).toFixed(1)}, came ${percent(came).toFixed(1)}`,
    value: percent(said - came),
    least: -points,
    most: points,
    unit: "points",
    of: count,
    standardError: binomialError(came, count),
  }));

function withinRange(futures: readonly EnduranceFuture[]): Threshold {
  const given = futures.filter(({ fuelRange }) => fuelRange !== null);
  const share = given.filter(({ fuelRange }) => fuelRange === "within").length / given.length;
  return {
    name: "95 % range of how long the fuel lasts holds the truth",
    value: percent(share),
    least: 93,
    most: 97,
    unit: "%",
    of: given.length,
    standardError: binomialError(share, given.length),
  };
}

const SHRINKS = [
  [2, 1],
  [3, 1],
  [3, 5],
  [6, 2],
] as const;

/** How far the bound comes in with more runs: what was promised over what came, on average. */
export const shrinkThresholds = (firstSeed: number, seasons: number): Threshold[] =>
  SHRINKS.map(([runs, more]) => ({
    name: `room of the bound with ${more} more to ${runs} runs, promised over came`,
    value: percent(promisedOverCame(firstSeed, seasons, runs, more)),
    least: 92,
    most: 108,
    unit: "%",
    of: seasons,
  }));

/** Prints what tanks made to the bound, and probabilities of endurance, come to; returns those missed. */
export function printSizing(firstSeed: number, count: number): Threshold[] {
  const tanks = [...tankThresholds(firstSeed, count), ...shrinkThresholds(firstSeed, count)];
  const endurance = enduranceThresholds(firstSeed + count, 8 * count);
  console.log(
    `\nTank bench: ${count} simulated futures of invented engines with 2 to 12 runs each, every truth known.\n`,
  );
  for (const one of tanks) console.log(thresholdLine(one));
  console.log(tanksApart(firstSeed, count).join("\n"));
  console.log(`\nEndurance: ${8 * count} futures; +/- is the binomial standard error of a bin.\n`);
  for (const one of endurance) console.log(thresholdLine(one, 62));
  return [...tanks, ...endurance].filter((one) => !isMet(one));
}
