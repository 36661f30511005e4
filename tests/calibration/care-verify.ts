import { seedsFrom } from "./calibrate.ts";
import { faultsFound } from "./care-faults.ts";
import {
  attendedInTime,
  falselyAttended,
  forecastsHeld,
  percentOf,
  type Share,
  steadyAttended,
  toldApart,
} from "./care-leaks.ts";

/** What the Fitter's book promises of simulated seasons, in per cent; `least` and `most` are the gates. */
export interface Promise100 {
  share: Share;
  least: number;
  most: number;
}

/** far from the seeds that the method was built on */
export const FIRST_SEED = 30_001;

export function leakPromises(seasons: number): Promise100[] {
  const seeds = seedsFrom(FIRST_SEED, seasons);
  const { held80, held95, given } = forecastsHeld(seeds);
  return [
    { share: attendedInTime(seeds), least: 95, most: 100 },
    { share: falselyAttended(seeds, "catches"), least: 0, most: 2 },
    { share: falselyAttended(seeds, "looks"), least: 0, most: 2 },
    { share: steadyAttended(seeds, 0.6), least: 0, most: 2 },
    { share: steadyAttended(seeds, 0.8), least: 0, most: 5 },
    { share: held80, least: 75, most: 85 },
    { share: held95, least: 90, most: 99 },
    { share: given, least: 80, most: 100 },
    { share: toldApart(seeds, "true"), least: 80, most: 100 },
    { share: toldApart(seeds, "mock"), least: 0, most: 6 },
  ];
}

/** Prints how the Fitter's book keeps its promises over so many seasons, and planted faults a fault. */
export function printCare(seasons: number, faultCases: number): void {
  console.log(`\nFitter's book: ${seasons} simulated seasons of one fitting, every leak known.\n`);
  for (const { share, least, most } of leakPromises(seasons)) {
    const value = percentOf(share).toFixed(1).padStart(6);
    const within = percentOf(share) >= least && percentOf(share) <= most ? "" : "  MISSED";
    console.log(`${share.name.padEnd(58)}${value} %  of ${share.of} (wanted ${least} to ${most})${within}`);
  }
  console.log(
    `\nWhere to look first: ${faultCases} engines a fault, five sound outings and three with it.\n`,
  );
  console.log(`${"fault planted".padEnd(20)}first %  first two %   stood first instead`);
  for (const { fault, cases, first, firstTwo, instead } of faultsFound(seedsFrom(FIRST_SEED, faultCases))) {
    const per = (count: number) => ((100 * count) / cases).toFixed(0).padStart(7);
    console.log(
      `${fault.padEnd(20)}${per(first)}      ${per(firstTwo)}   ${[...new Set(instead)].join(", ")}`,
    );
  }
}
