import { isSolid } from "../analysis/fuel/fuel-table.ts";
import type { Locomotive } from "../logbook/locomotive.ts";
import { inMm } from "./drawing.ts";
import { feedingWarnings } from "./feeding-warnings.ts";
import { isGas } from "./fuel-tank.ts";
import { layoutOf } from "./layout.ts";
import type { Models } from "./models.ts";
import type { Plan } from "./plan-schema.ts";
import type { Reckoned, Sizing, Warning } from "./sizing-schema.ts";
import { tankWarnings } from "./tank-warnings.ts";

const FEW_RUNS = 4;
/** How far beyond the longest run a plan may reach before it is said (our choice). */
const FAR_BEYOND = 2;
/** Shorter than so much of the runs' mean length a plan is shorter than they (our choice). */
const SHORTER = 0.9;
/** Where the plan is so short the bound does not keep its promise: by the physical simulator it held 80 to 87 times in 100. */
export function shorterThan(amount: number, runs: Sizing["runs"]): number | null {
  const lengths = runs.flatMap((run) => (run.amount === null ? [] : [run.amount]));
  const mean = lengths.reduce((sum, one) => sum + one / lengths.length, 0);
  return amount < SHORTER * mean ? mean : null;
}

/** What the owner should know before trusting the figures, in words. */
export function sizingWarnings(
  locomotive: Locomotive,
  plan: Plan,
  models: Models,
  sizing: Reckoned,
  supplyMl: number | null,
): Warning[] {
  return [
    ...ofBoiler(locomotive, plan),
    ...ofRuns(plan, models, sizing),
    ...ofTracks(models, sizing.runs),
    ...ofChosen(plan, models),
    ...ofFuelTank(locomotive, plan),
    ...feedingWarnings(locomotive, plan, models, sizing, supplyMl),
    ...tankWarnings(plan, sizing),
  ];
}

const timesWords = (times: number): string => (times < 10 ? times.toFixed(1) : times.toFixed(0));

/** Laps of tracks that differ by more than this are not alike (our choice). */
const LIKE_LAPS = 1.05;

/** Laps are put together as laps, however long each was. */
function ofTracks({ kind, runs }: Models, counted: Sizing["runs"]): Warning[] {
  const ids = counted.map(({ steamingId }) => steamingId);
  const lengths = runs.flatMap(({ steamingId, lapM }) =>
    ids.includes(steamingId) && lapM !== undefined ? [lapM] : [],
  );
  const [shortest, longest] = [Math.min(...lengths), Math.max(...lengths)];
  if (kind !== "laps" || lengths.length < 2 || longest <= LIKE_LAPS * shortest) return [];
  return [
    {
      code: "laps-of-several-tracks",
      text: `The runs are of laps from ${shortest} to ${longest} m, and a lap of the plan is taken to be any of them: choose the runs of one track, or plan by distance.`,
    },
  ];
}

/** A boiler cannot be smaller outside than inside. */
function ofBoiler({ boiler }: Locomotive, plan: Plan): Warning[] {
  const { tanks } = plan;
  if (tanks === undefined || boiler.shape.kind === "table") return [];
  const { boilerRadiusMm } = layoutOf(tanks, plan.usableFraction, boiler.outerDiameterMm).buildUp;
  if (boilerRadiusMm === null || 2 * boilerRadiusMm > boiler.shape.innerDiameterMm) return [];
  return [
    {
      code: "boiler-outside-too-small",
      text: `The boiler is given as ${inMm(2 * boilerRadiusMm)} mm outside, and it is ${inMm(boiler.shape.innerDiameterMm)} mm inside: one of the two is wrong, and so is the space reckoned beside it.`,
    },
  ];
}

/** Those chosen by name that have no part in the figures. */
function ofChosen({ steamings }: Plan, { kind, runs, missing, told }: Models): Warning[] {
  const found: Warning[] = [];
  if (missing > 0) {
    found.push({
      code: "runs-not-there",
      text: `${missing === 1 ? "One of the runs chosen for this plan is" : `${missing} of the runs chosen for this plan are`} no longer in the logbook: it is reckoned from the others.`,
    });
  }
  const silent = runs.filter(({ steamingId }) => told.every((one) => one.steamingId !== steamingId));
  if (steamings !== undefined && silent.length > 0) {
    const of = { laps: "a lap", minutes: "a minute", distanceM: "a metre" }[kind];
    found.push({
      code: "runs-left-aside",
      text: `${silent.map(({ title }) => title).join(", ")}: chosen, and left aside, as nothing there tells the water ${of}.`,
    });
  }
  return found;
}

/** What is given of the fuel tank and does not enter. */
function ofFuelTank(locomotive: Locomotive, plan: Plan): Warning[] {
  const given = plan.tanks?.fuel;
  if (given === undefined) return [];
  const { kind } = locomotive.fuel;
  const unused = [
    ...(given.box !== undefined && given.holdsMl !== undefined ? ["holdsMl, as the box tells it"] : []),
    ...(given.expansionFraction !== undefined && kind !== "spirit"
      ? ["expansionFraction, which is for spirit"]
      : []),
    ...(given.liquidFraction !== undefined && !isGas(kind) ? ["liquidFraction, which is for gas"] : []),
    ...(isSolid(locomotive.fuel) && (given.holdsMl !== undefined || given.box !== undefined)
      ? ["the fuel tank, as a solid fuel has none"]
      : []),
  ];
  return unused.map((what) => ({ code: "fuel-tank-not-used", text: `Given and not used: ${what}.` }));
}

function ofRuns(plan: Plan, models: Models, sizing: Reckoned): Warning[] {
  const { water, kind, amount } = models;
  if (water === null) return [];
  const found: Warning[] = [];
  const count = sizing.runs.length;
  if (count === 1) {
    const spread = Math.round((plan.spreadRelative ?? 0.15) * 100);
    found.push({
      code: "one-run",
      text: `One run alone tells nothing of how runs differ: a spread of ${spread} % is taken for granted, and how far more runs would bring the bound in cannot be told.`,
    });
  } else if (count < FEW_RUNS) {
    found.push({
      code: "few-runs",
      text: `${count} runs tell little of how runs differ, so the bound lies far out: another run brings it in most.`,
    });
  }
  const longest = Math.max(...sizing.runs.map((run) => run.amount ?? 0));
  if (longest > 0 && amount > FAR_BEYOND * longest) {
    const unit = { laps: "laps", minutes: "minutes", distanceM: "m" }[kind];
    found.push({
      code: "beyond-the-runs",
      text: `The plan of ${amount} ${unit} is ${timesWords(amount / longest)} times the longest run: what holds for ${longest.toFixed(0)} ${unit} is taken to hold for all of it.`,
    });
  }
  const meanLength = shorterThan(amount, sizing.runs);
  if (meanLength !== null) {
    const unit = { laps: "laps", minutes: "minutes", distanceM: "m" }[kind];
    found.push({
      code: "shorter-than-the-runs",
      text: `The plan is shorter than the runs, which were ${meanLength.toFixed(0)} ${unit} on average: getting under way counts for more in a short run, so she may well draw more than the bound.`,
    });
  }
  const load = plan.plan.trainMassKg;
  if (load !== undefined && water.noLine !== null) {
    found.push({ code: "load-not-used", text: `The load does not enter: ${water.noLine}.` });
  }
  if (load === undefined && water.noLine === null) {
    found.push({
      code: "load-not-named",
      text: "The runs tell what load costs: name the load of the planned run, and the water is read off their line.",
    });
  }
  if (water.leftAside > 0) {
    found.push({
      code: "runs-without-load",
      text: `${water.leftAside === 1 ? "One run has no recorded load and is" : `${water.leftAside} runs have no recorded load and are`} left aside: the water is read off the line of the others.`,
    });
  }
  if (water.byLoad && water.beyondLoads) {
    found.push({
      code: "beyond-the-loads",
      text: "The planned load lies outside those of the runs: the line is carried on beyond them.",
    });
  }
  return found;
}
