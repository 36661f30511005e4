import { type Random, randomOf } from "../../sample-data/simulator/random.ts";
import { absent, type Measured } from "../../src/quantity/measured.ts";
import type { RunFigures } from "../../src/sizing/run-figures.ts";

/** One run in truth: g a lap, g beside the running, and the train it was run with. */
export interface TrueRun {
  water: number;
  fuel: number;
  other: number;
  trainMassKg: number | null;
}

/** One season of an invented engine: its runs as their figures would be reckoned, and more of them in truth. */
export interface Season {
  runs: RunFigures[];
  laps: number;
  /** load that the plan names; undefined where it names none */
  plannedKg: number | undefined;
  /** the run that follows */
  future: TrueRun;
  /** true mean water with the middle train, g a lap */
  mean: number;
  /** further runs as their figures would be reckoned */
  later(count: number): RunFigures[];
}

export interface SeasonOptions {
  loads?: "unrecorded" | "alike" | "several";
  /** spread of one run against another, and size of their own errors and of those they share; by chance if absent */
  spread?: number;
  errors?: number;
}

/** Loads that an engine with several trains runs with, against the middle one. */
const LOADS = [0.5, 0.75, 1, 1.25, 1.5] as const;

/**
 * Runs differ by 4 to 20 %, a hard run using more of both; each is read with 1 to 5 %, and all share the error of a
 * measure of 1 to 3 % for water and for fuel. In a third of the seasons the trains differ and load costs water and fuel.
 */
export function seasonOfFigures(seed: number, count: number, options: SeasonOptions = {}): Season {
  const random = randomOf(seed, "figures");
  const { between, normal, pick } = random;
  const perLap = between(3, 15);
  const mean = { water: perLap, fuel: perLap / between(2, 5) };
  const other = mean.fuel * between(4, 12);
  const drawn = { spread: between(0.04, 0.2), together: between(0, 0.9), own: between(0.01, 0.05) };
  const spread = options.spread ?? drawn.spread;
  const { together } = drawn;
  const scales = { feed: between(0.01, 0.03), fuelMeasure: between(0.01, 0.03) };
  const own = drawn.own * (options.errors ?? 1);
  const shared = {
    feed: scales.feed * (options.errors ?? 1),
    fuelMeasure: scales.fuelMeasure * (options.errors ?? 1),
  };
  const off = { feed: 1 + shared.feed * normal(), fuelMeasure: 1 + shared.fuelMeasure * normal() };
  const loads = options.loads ?? pick(["unrecorded", "alike", "several"]);
  const middleKg = between(2, 20);
  const firstTrain = pick([0, 2, 4]);
  const loadCosts = between(0.1, 0.5);
  const ofLoad = (kg: number | null) => (kg === null ? 1 : 1 + loadCosts * (kg / middleKg - 1));

  const truth = (place: number | null): TrueRun => {
    // every third run has another of three trains, so that five runs always tell a line
    const load =
      loads === "several" ? (place === null ? pick(LOADS) : LOADS[(firstTrain + 2 * place) % 6]) : 1;
    return at(loads === "unrecorded" ? null : (load ?? 1) * middleKg);
  };
  const at = (trainMassKg: number | null): TrueRun => {
    const hard = normal();
    const strayed = (by: number) => {
      const apart = together * hard + Math.sqrt(1 - together ** 2) * normal();
      return Math.max(0.3, 1 + by * apart);
    };
    return {
      water: mean.water * ofLoad(trainMassKg) * strayed(spread),
      fuel: mean.fuel * ofLoad(trainMassKg) * strayed(spread),
      other: other * Math.max(0.3, 1 + 0.1 * normal()),
      trainMassKg,
    };
  };
  const told = (place: number) => recorded(place, truth(place), { own, shared, off }, random);
  const runs = Array.from({ length: count }, (_, i) => told(i));
  const laps = Math.round(between(15, 80));
  const plansLoad = loads === "alike" || (loads === "several" && count >= 5);
  const futureKg = plansLoad ? middleKg * (loads === "alike" ? 1 : between(0.5, 1.5)) : null;
  return {
    runs,
    laps,
    mean: mean.water,
    plannedKg: futureKg ?? undefined,
    future: futureKg === null ? truth(null) : at(futureKg),
    later: (more) => Array.from({ length: more }, (_, i) => told(count + i)),
  };
}

interface Errors {
  own: number;
  shared: { feed: number; fuelMeasure: number };
  /** true factors of the measures */
  off: { feed: number; fuelMeasure: number };
}

/** What a sheet would say of a true run. */
function recorded(place: number, truth: TrueRun, { own, shared, off }: Errors, random: Random): RunFigures {
  const figure = (grams: number, name: "feed" | "fuelMeasure"): Measured => ({
    value: grams * off[name] * (1 + own * random.normal()),
    unit: "g",
    parts: [
      { name: "readings", u: own * grams },
      { name, u: shared[name] * grams, source: name },
    ].filter(({ u }) => u > 0),
  });
  const none = absent("not of this test");
  const nothing = { water: none, fuel: none, amount: null };
  const laps = { water: figure(truth.water, "feed"), fuel: figure(truth.fuel, "fuelMeasure"), amount: 30 };
  return {
    steamingId: `run-${place}`,
    title: `Run ${place}`,
    startedAt: "2026-05-01T10:00:00Z",
    trainMassKg: truth.trainMassKg,
    per: { laps, minutes: nothing, distanceM: nothing },
    otherFuel: figure(truth.other, "fuelMeasure"),
    metresPerMinute: null,
    pumpPerRevolution: { value: null, why: "not of this test" },
    coolingLoss: { value: null, why: "not of this test" },
  };
}
