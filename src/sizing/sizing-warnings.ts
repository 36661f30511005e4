import type { Locomotive } from "../logbook/locomotive.ts";
import { WATER_G_PER_ML } from "./bound.ts";
import { inMm } from "./drawing.ts";
import { BOTTLE, NO_FEED } from "./fit.ts";
import { capital } from "./fit-words.ts";
import { isGas, isSolid } from "./fuel-tank.ts";
import { layoutOf } from "./layout.ts";
import type { Plan } from "./plan-schema.ts";
import { heldAndNeeded, inHundred, ofHundred, roundedDown, roundedUp } from "./rounding.ts";
import type { Models } from "./size.ts";
import type { Sizing } from "./sizing-schema.ts";
import { betweenLevelsMl } from "./supply.ts";

type Warning = Sizing["warnings"][number];
type Reckoned = Omit<Sizing, "warnings">;

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
/** That the water goes first is worth a word when it is likelier than this (our choice). */
const PROBABLE = 0.05;
/** So many times as long tells more than the odds do (our choice). */
const WORTH_SAYING = 1.2;

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
    ...ofFeeding(locomotive, plan, models, sizing, supplyMl),
    ...ofTanks(plan, sizing),
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

function ofFeeding(
  locomotive: Locomotive,
  plan: Plan,
  models: Models,
  sizing: Reckoned,
  supplyMl: number | null,
): Warning[] {
  const { feeding, endurance, fit } = sizing;
  const found: Warning[] = [];
  if (!feeding.underPressure) {
    found.push({
      code: "no-feed-under-pressure",
      text: `${feeding.byBottle ? "Nothing but a bottle can feed" : "Nothing can feed"} this boiler while it is in steam, so the fire must end before the ${supplyMl === null ? "water" : ownWater(supplyMl, plan)}: ${fireFirst(sizing)}. Look at the glass.`,
    });
    const alone = boilerTooSmall(plan, models, sizing, supplyMl);
    if (alone !== null) found.push(alone);
    if (fit !== null && !fit.drawable) {
      found.push({
        code: "tanks-of-no-use",
        text: `The planned tanks are of no use: ${feeding.byBottle ? BOTTLE : NO_FEED}.`,
      });
    }
  } else if (endurance.fuelEndsFirst !== null && endurance.fuelEndsFirst < 1 - PROBABLE) {
    const first = Math.round((1 - endurance.fuelEndsFirst) * 100);
    found.push({
      code: "water-may-end-first",
      text: `${first > 98 ? "In nearly every such run" : `In about ${first} of 100 such runs`} the water is gone before the fire: look at the glass, and let the fire finish before the water.`,
    });
  }
  const mostMl = betweenLevelsMl(locomotive);
  if (feeding.underPressure && (plan.fromBoilerMl ?? 0) > mostMl) {
    found.push({
      code: "boiler-gives-less",
      text: `The boiler cannot give ${plan.fromBoilerMl} ml: between its levels it holds ${roundedDown(mostMl, 0)} ml, reckoned cold, and no more is counted on.`,
    });
  }
  const canStanding = models.runs.some(({ fedInSteam: by }) => by === "hand-pump" || by === "injector");
  if (feeding.underPressure && locomotive.handPump === undefined && !canStanding) {
    found.push({
      code: "no-hand-pump",
      text: "Only the axle pump feeds this boiler: standing still, nothing can be put in under pressure.",
    });
  }
  if (models.water !== null && models.noFuel !== null) {
    found.push({ code: "fuel-not-told", text: `${capital(models.noFuel)}.` });
  }
  return found;
}

const aboutOfHundred = (probability: number): string => {
  const many = ofHundred(probability);
  return /^\d/.test(many) ? `about ${many}` : many;
};

/** The boiler's own water, and what it is reckoned from. */
function ownWater(supplyMl: number, { allowanceMl = 0 }: Plan): string {
  const less = allowanceMl > 0 ? `, less ${roundedUp(allowanceMl, 0)} ml of allowance` : "";
  return `${roundedDown(supplyMl, 0)} ml that it has to give (between its levels, reckoned cold${less})`;
}

/** Whether the fire ends first where it must. */
function fireFirst({ endurance }: Reckoned): string {
  const { fuelEndsFirst, waterLasts, fuelLasts } = endurance;
  if (fuelEndsFirst === null) return "measure the fuel so that it does";
  const times =
    waterLasts.value === null || fuelLasts.value === null ? 1 : fuelLasts.value / waterLasts.value;
  const means =
    times < WORTH_SAYING ? "" : `the fuel lasts about ${times.toFixed(1)} times as long as the water, and `;
  return fuelEndsFirst < 1 - PROBABLE
    ? `${means}in ${aboutOfHundred(1 - fuelEndsFirst)} of 100 such runs the water is gone first: put in less fuel`
    : `as filled, the fire ends first in ${ofHundred(fuelEndsFirst)} of 100 such runs`;
}

/** Where the plan outlasts the boiler and nothing can feed it. */
function boilerTooSmall(
  { reserveMl = 0 }: Plan,
  { kind, amount, water }: Models,
  sizing: Reckoned,
  supplyMl: number | null,
): Warning | null {
  const { waterSuffices } = sizing.endurance;
  if (supplyMl === null || water === null || waterSuffices === null) return null;
  const gramsPerUnit = water.predictive.quantile(sizing.probability);
  const neededMl = (gramsPerUnit * amount) / WATER_G_PER_ML + reserveMl;
  if (supplyMl >= neededMl - 1e-6) return null;
  const unit = { laps: "laps", minutes: "minutes", distanceM: "m" }[kind];
  const lasts = roundedDown(((supplyMl - reserveMl) * WATER_G_PER_ML) / gramsPerUnit, 0);
  const wanted = inHundred(sizing.probability);
  const good =
    lasts < 1
      ? `it is not good for one of the ${unit}`
      : `${wanted} times in 100 it is good for ${lasts} ${unit}`;
  const { held, needed, decimals } = heldAndNeeded(supplyMl, neededMl);
  const reserve = reserveMl > 0 ? ` and ${roundedUp(reserveMl, 0)} ml in reserve` : "";
  return {
    code: "boiler-too-small",
    text: `The boiler's own ${held.toFixed(decimals)} ml are less than the ${needed.toFixed(decimals)} ml that suffice for ${amount} ${unit}${reserve} ${wanted} times in 100; ${good}. No tank helps while there is no pump to feed it in steam: ${sizing.feeding.byBottle ? "fill up from the bottle or stop in time" : "stop in time"}, and look at the glass.`,
  };
}

function ofTanks(plan: Plan, { tanks, fit, fuel }: Reckoned): Warning[] {
  const solved = fit?.solved ?? null;
  const impossible = tanks.flatMap(({ name, usable, lengthMm }): Warning[] => {
    if (usable.value !== null || (solved !== null && !solved.needed && solved.tank === name)) return [];
    return lengthMm === null
      ? [{ code: "tank-not-known", text: `What the ${name} would hold cannot be told: ${usable.why}.` }]
      : [{ code: "no-such-tank", text: `The ${name} cannot be made so: ${usable.why}.` }];
  });
  const notNeeded =
    solved === null || solved.needed
      ? []
      : [{ code: "tank-not-needed", text: `The ${solved.tank}: ${solved.why}.` }];
  const short =
    fit === null || fit.short === null || !fit.drawable
      ? []
      : [{ code: "tanks-short", text: `The tanks are ${fit.short.words}.` }];
  const fuelShort =
    fuel.shortMl !== null && fuel.shortMl > 0
      ? [
          {
            code: "fuel-tank-short",
            text: `The fuel tank holds ${roundedUp(fuel.shortMl, 0)} ml less than the planned run may burn (${fuel.spare}).`,
          },
        ]
      : [];
  const noFuelTank = fuel.why === null ? [] : [{ code: "no-such-fuel-tank", text: `${capital(fuel.why)}.` }];
  return [...notSolved(plan, tanks, fit), ...impossible, ...notNeeded, ...short, ...noFuelTank, ...fuelShort];
}

/** A size to be found that was not, as there is no demand: it must not pass for an answer. */
function notSolved(plan: Plan, tanks: Reckoned["tanks"], fit: Reckoned["fit"]): Warning[] {
  const solve = plan.tanks?.solve;
  const tank = solve === undefined ? undefined : tanks[solve.tank];
  if (fit !== null || solve === undefined || tank === undefined) return [];
  const mm = { length: tank.lengthMm, height: tank.heightMm, width: tank.widthMm }[solve.dimension];
  return [
    {
      code: "not-solved",
      text: `The ${solve.dimension} of the ${tank.name} was not looked for, as nothing tells how much is needed: it stands ${mm === null ? "" : `at ${inMm(mm)} mm `}as it was given.`,
    },
  ];
}
