import { PA_PER_BAR, STANDARD_ATMOSPHERE_PA } from "../analysis/state/circumstances.ts";
import type { Locomotive } from "../logbook/locomotive.ts";
import { saturatedWater } from "../steam/saturation.ts";
import { WATER_G_PER_ML } from "./bound.ts";
import { boilerMl } from "./feeding.ts";
import { heldBy, type Layout, troublesOf, USUAL_USABLE, usableMl } from "./layout.ts";
import type { Plan } from "./plan-schema.ts";

/** Water that a run has to draw on, ml cold; null with the reason where it is not known. */
export type Supply = { ml: number; why: null } | { ml: null; why: string };

const known = (ml: number): Supply => ({ ml: Math.max(0, ml), why: null });
const unknown = (why: string): Supply => ({ ml: null, why });

/**
 * The boiler's own water between its levels as ml cold. Both levels are read in steam, where the water has swollen
 * (some 8 %).
 */
export function betweenLevelsMl(locomotive: Locomotive): number {
  const { lowestLevelMm, highestLevelMm } = locomotive.boiler;
  const hot = saturatedWater(STANDARD_ATMOSPHERE_PA + locomotive.workingPressureBarG * PA_PER_BAR);
  const coldMlPerMl = 1 / (1000 * hot.volumeM3PerKg * WATER_G_PER_ML);
  return boilerMl(locomotive, lowestLevelMm, highestLevelMm) * coldMlPerMl;
}

/** All that there is where nothing can feed under pressure: between the levels, less what is blown off. */
export const boilerAloneMl = (locomotive: Locomotive, plan: Plan): number =>
  Math.max(0, betweenLevelsMl(locomotive) - (plan.allowanceMl ?? 0));

/** What the boiler is counted upon to give beside tanks: never more than lies between its levels. */
export const fromBoilerMl = (locomotive: Locomotive, plan: Plan): number =>
  Math.min(plan.fromBoilerMl ?? 0, betweenLevelsMl(locomotive));

/** Water that can be fed while running: tanks planned, else the engine's own, and what the boiler may give. */
export function supplied(locomotive: Locomotive, plan: Plan, layout: Layout | null): Supply {
  const besideMl = fromBoilerMl(locomotive, plan) - (plan.allowanceMl ?? 0);
  if (layout === null) {
    const { waterTankMl } = locomotive;
    return waterTankMl === undefined
      ? unknown("no water tank is known")
      : known(waterTankMl * (plan.usableFraction ?? USUAL_USABLE) + besideMl);
  }
  const { notKnown, notMade } = troublesOf(layout);
  if (notKnown !== null) return unknown(notKnown);
  const isAnyMade = layout.tanks.some((tank) => heldBy(layout, tank).water !== null);
  return notMade !== null && !isAnyMade ? unknown(notMade) : known(usableMl(layout) + besideMl);
}
