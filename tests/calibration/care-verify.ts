import { falseAlarmBy } from "../../src/care/indicator-course.ts";
import { seedsFrom } from "./calibrate.ts";
import { falseAlarms, OUTINGS } from "./care-alarms.ts";
import { type FaultRow, faultsFound, soundUnaccused, together } from "./care-faults.ts";
import {
  attendedInTime,
  falselyAttended,
  forecastsHeld,
  percentOf,
  type Share,
  steadyAttended,
  toldApart,
} from "./care-leaks.ts";
import { binomialError, isMet, type Threshold, thresholdLine } from "./threshold.ts";

/** far from the seeds that the method was built on */
export const FIRST_SEED = 30_001;

/** What the Fitter's book promises of simulated seasons, in per cent; `least` and `most` are the gates. */
const promise = (share: Share, least: number, most: number): Threshold => ({
  name: share.name,
  value: percentOf(share),
  least,
  most,
  unit: "%",
  of: share.of,
  standardError: binomialError(share.hits / share.of, share.of),
});

/** Fewer than so many in 100. */
const fewer = (share: Share, most: number): Threshold => ({ ...promise(share, 0, most), below: true });

export function leakPromises(seasons: number): Threshold[] {
  const seeds = seedsFrom(FIRST_SEED, seasons);
  const { held80, held95, given } = forecastsHeld(seeds);
  const first = forecastsHeld(seeds, () => true, "first");
  return [
    promise(attendedInTime(seeds), 95, 100),
    promise(attendedInTime(seeds, "first"), 95, 100),
    fewer(falselyAttended(seeds, "catches"), 2),
    fewer(falselyAttended(seeds, "catches", "first"), 2),
    fewer(falselyAttended(seeds, "looks"), 2),
    fewer(falselyAttended(seeds, "looks", "first"), 2),
    fewer(steadyAttended(seeds, 0.6), 2),
    fewer(steadyAttended(seeds, 0.8), 5),
    promise(held80, 75, 85),
    promise(held95, 90, 99),
    promise(given, 80, 100),
    promise(first.held80, 75, 85),
    promise(toldApart(seeds, "true"), 80, 100),
    fewer(toldApart(seeds, "mock"), 6),
  ];
}

/** A figure of a sound engine gives alarm hardly oftener than the book states. */
export const alarmPromises = (engines: number): Threshold[] =>
  falseAlarms(seedsFrom(FIRST_SEED, engines)).map(({ share, most }) => promise(share, 0, most));

/** Planted faults in two engines, and the same engines with nothing the matter. */
export const suspectPromises = (rows: readonly FaultRow[], seeds: readonly number[]): Threshold[] => [
  promise(together(rows, "first"), 70, 100),
  promise(together(rows, "firstTwo"), 90, 100),
  promise(soundUnaccused(seeds), 95, 100),
];

function printThresholds(thresholds: readonly Threshold[]): readonly Threshold[] {
  for (const threshold of thresholds) console.log(thresholdLine(threshold, 66));
  return thresholds;
}

/**
 * Prints how the Fitter's book keeps its promises over so many seasons, and planted faults a fault.
 * @returns the promises that were missed
 */
export function printCare(seasons: number, faultCases: number): Threshold[] {
  console.log(`\nFitter's book: ${seasons} simulated seasons of one fitting, every leak known.\n`);
  const leaks = printThresholds(leakPromises(seasons));
  console.log(
    `\nFigures of the whole engine: ${seasons} engines with nothing the matter, their own outings for a standard;
the book states ${(100 * falseAlarmBy(OUTINGS)).toFixed(1)} % by outing ${OUTINGS}.\n`,
  );
  const alarms = printThresholds(alarmPromises(seasons));
  console.log(
    `\nWhere to look first: two engines, ${faultCases} seasons a fault of five sound outings and three with it; ${2 * faultCases} without one.\n`,
  );
  const seeds = seedsFrom(FIRST_SEED, faultCases);
  const rows = faultsFound(seeds);
  console.log(
    `${"engine".padEnd(12)}${"fault planted".padEnd(16)}first %  first two %  named   stood first instead`,
  );
  for (const { engine, fault, cases, first, firstTwo, instead, listed } of rows) {
    const per = (count: number) => ((100 * count) / cases).toFixed(0).padStart(7);
    console.log(
      `${engine.padEnd(12)}${fault.padEnd(16)}${per(first)}      ${per(firstTwo)}  ${(listed / cases).toFixed(1).padStart(5)}   ${[...new Set(instead)].join(", ")}`,
    );
  }
  console.log("");
  const suspects = printThresholds(suspectPromises(rows, seeds));
  return [...leaks, ...alarms, ...suspects].filter((threshold) => !isMet(threshold));
}
