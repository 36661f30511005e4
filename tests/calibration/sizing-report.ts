import { clusteredError, type PhysicalFuture, physicalFutures } from "./physical-futures.ts";
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

/** What is wanted of the physical futures: as of the others, give or take twice the standard error of their clusters. */
function giveOrTake(
  name: string,
  cases: readonly Case[],
  range: Range,
  of = share(cases),
  expected = share(cases) / 100,
): Threshold {
  // a bin in which nothing came, or all, shows no error of its own
  const engines = new Set(cases.map(({ engine }) => engine)).size;
  const standardError = clusteredError(cases) || binomialError(expected, engines);
  const [least, most] = range;
  const give = Math.round(20 * standardError) / 10;
  return {
    name,
    value: of,
    least: Math.round(10 * (least - give)) / 10,
    most: Math.round(10 * (most + give)) / 10,
    unit: range === POINTS ? "points" : "%",
    of: cases.length,
    standardError,
  };
}

type Case = Parameters<typeof clusteredError>[0][number];
type Range = readonly [number, number];
const POINTS: Range = [-5, 5];
const share = (cases: readonly Case[]): number =>
  percent(cases.filter(({ held }) => held).length / cases.length);

/** Tanks and endurance over futures of the physical simulator: figures as a user has them, truth from its books. */
export function physicalThresholds(futures: readonly PhysicalFuture[]): Threshold[] {
  const held = (of: (future: PhysicalFuture) => boolean | null) =>
    futures.flatMap((future) => {
      const one = of(future);
      return one === null ? [] : [{ engine: future.engine, held: one }];
    });
  const bins = (name: string, of: (future: PhysicalFuture) => readonly Pair[]) =>
    [0, 0.2, 0.4, 0.6, 0.8].map((from) => {
      const inside = futures.flatMap((future) =>
        of(future)
          .filter(({ said }) => said >= from && (said < from + 0.2 || from > 0.7))
          .map(({ said, came }) => ({ engine: future.engine, held: came, said })),
      );
      const said = percent(inside.reduce((sum, one) => sum + one.said, 0) / inside.length);
      const words = `${name}, said ${percent(from).toFixed(0)} to ${percent(from + 0.2).toFixed(0)} %: ${said.toFixed(1)}, came ${share(inside).toFixed(1)}`;
      return giveOrTake(words, inside, POINTS, said - share(inside), said / 100);
    });
  return [
    giveOrTake(
      "tank made to the 95 % bound suffices",
      held(({ suffices, isShort }) => (isShort ? null : suffices)),
      [93, 97],
    ),
    giveOrTake(
      "fuel that suffices 95 times in 100 does",
      held(({ fuelSuffices }) => fuelSuffices),
      [93, 97],
    ),
    ...bins("fuel ends first", ({ fuelFirst }) => fuelFirst),
    ...bins("water lasts the plan", ({ waterLasts }) => waterLasts),
  ];
}

/** Prints what tanks made to the bound, and probabilities of endurance, come to; returns those missed. */
export function printSizing(firstSeed: number, count: number, engines: number): Threshold[] {
  const tanks = [...tankThresholds(firstSeed, count), ...shrinkThresholds(firstSeed, count)];
  const endurance = enduranceThresholds(firstSeed + count, 8 * count);
  console.log(
    `\nTank bench: ${count} simulated futures of invented engines with 2 to 12 runs each, every truth known.\n`,
  );
  for (const one of tanks) console.log(thresholdLine(one));
  console.log(tanksApart(firstSeed, count).join("\n"));
  console.log(`\nEndurance: ${8 * count} futures; +/- is the binomial standard error of a bin.\n`);
  for (const one of endurance) console.log(thresholdLine(one, 62));
  const futures = physicalFutures(firstSeed, engines);
  const physical = physicalThresholds(futures);
  const room = futures.map(({ roomOverNeed }) => roomOverNeed).sort((a, b) => a - b);
  console.log(
    `\nThe same by the physical simulator: ${engines} engines of 7 outings, 2 to 6 of them worked out as the owner's runs and
another the run to come; ${futures.length} futures, each with four sizes of tanks. +/- is the standard error with the futures of one engine taken together,
wanted as above give or take twice that. Half of the tanks are over ${(room[room.length >> 1] ?? Number.NaN).toFixed(2)} times what was drawn.\n`,
  );
  for (const one of physical) console.log(thresholdLine(one, 62));
  const short = futures.filter(({ isShort }) => isShort);
  const sufficed = short.filter(({ suffices }) => suffices).length / short.length;
  console.log(
    `  plans shorter than 0.9 of the runs' mean length, of which the bench warns: the tank sufficed ${percent(sufficed).toFixed(1)} % of ${short.length} times (not promised)`,
  );
  return [...tanks, ...endurance, ...physical].filter((one) => !isMet(one));
}
