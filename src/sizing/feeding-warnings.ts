import type { Locomotive } from "../logbook/locomotive.ts";
import { WATER_G_PER_ML } from "./bound.ts";
import { BOTTLE, NO_FEED } from "./fit.ts";
import { capital } from "./fit-words.ts";
import type { Models } from "./models.ts";
import type { Plan } from "./plan-schema.ts";
import { heldAndNeeded, inHundred, ofHundred, roundedDown, roundedUp } from "./rounding.ts";
import type { Reckoned, Warning } from "./sizing-schema.ts";
import { betweenLevelsMl } from "./supply.ts";

/** That the water goes first is worth a word when it is likelier than this (our choice). */
const PROBABLE = 0.05;
/** So many times as long tells more than the odds do (our choice). */
const WORTH_SAYING = 1.2;

/** How the boiler is fed on the planned run, and which of water and fire ends first. */
export function feedingWarnings(
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
