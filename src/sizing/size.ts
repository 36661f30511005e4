import { fuelProperties, isSolid } from "../analysis/fuel/fuel-table.ts";
import type { Locomotive } from "../logbook/locomotive.ts";
import { reported } from "../quantity/reported.ts";
import { boundWithMoreRuns, expectedOf, limitOf, WATER_G_PER_ML } from "./bound.ts";
import { cuttingList } from "./cutting-list.ts";
import { enduranceOf } from "./endurance.ts";
import { asDemand, feedingOf } from "./feeding.ts";
import { type Fitted, fitted } from "./fit.ts";
import { fuelSizingOf } from "./fuel-tank.ts";
import { laggingWorthOf } from "./lagging.ts";
import { heldBy, type Layout, layoutOf, tankName, USUAL_USABLE } from "./layout.ts";
import { type Models, planUnits } from "./models.ts";
import type { Plan } from "./plan-schema.ts";
import type { PlanKind, RunFigures } from "./run-figures.ts";
import { sharedRoom } from "./shared-room.ts";
import type { Sizing } from "./sizing-schema.ts";
import { sizingWarnings } from "./sizing-warnings.ts";
import { boilerAloneMl, fromBoilerMl, type Supply, supplied } from "./supply.ts";

export const USUAL_PROBABILITY = 0.95;

/** A plan worked out: demand, tanks, fuel, endurance, lagging and the cutting list. */
export function sizeUp(
  locomotive: Locomotive,
  plan: Plan,
  models: Models,
): { sizing: Sizing; layout: Layout | null } {
  const { kind, amount, runs, water } = models;
  const probability = plan.probability ?? USUAL_PROBABILITY;
  const mlPerG = 1 / WATER_G_PER_ML;
  const boundMl = water === null ? null : water.predictive.quantile(probability) * amount * mlPerG;
  const extraMl = (plan.allowanceMl ?? 0) + (plan.reserveMl ?? 0) - fromBoilerMl(locomotive, plan);
  const waterMl = boundMl === null ? null : Math.max(0, boundMl + extraMl);
  const noRun = reported({ value: null, why: models.noWater ?? whyNoDemand(kind, runs) });
  const start =
    plan.tanks === undefined
      ? null
      : layoutOf(plan.tanks, plan.usableFraction, locomotive.boiler.outerDiameterMm);
  const fuel = fuelSizingOf(locomotive, models.fuel, plan, probability, models.noFuel);
  const perMinute = models.perMinute;
  const feeding = feedingOf(
    locomotive,
    runs,
    perMinute === null
      ? null
      : asDemand(perMinute.predictive.mean * mlPerG, perMinute.predictive.spread * mlPerG),
  );
  const aloneMl = feeding.underPressure ? null : boilerAloneMl(locomotive, plan);
  const fit =
    start === null || boundMl === null || waterMl === null
      ? null
      : fitted(
          start,
          plan.tanks?.solve,
          { waterMl, amount, mlPerUnit: boundMl / amount, unit: planUnits[kind] },
          aloneMl === null
            ? null
            : {
                supplyMl: aloneMl,
                boundMl,
                reserveMl: plan.reserveMl ?? 0,
                probability,
                byBottle: feeding.byBottle,
              },
        );
  const layout = fit?.layout ?? start;
  const supply: Supply = aloneMl === null ? supplied(locomotive, plan, layout) : { ml: aloneMl, why: null };
  const densityGPerMl = fuelProperties(locomotive.fuel)?.densityGPerMl ?? null;
  const fuelG = fuel.fillMl === null || densityGPerMl === null ? null : fuel.fillMl * densityGPerMl;
  const endurance = asCarried(
    locomotive,
    enduranceOf(
      runs,
      models,
      { kind, amount, spreadRelative: plan.spreadRelative, trainMassKg: plan.plan.trainMassKg },
      { waterMl: supply.ml, waterWhy: supply.why, fuelG, fuelWhy: fuel.why ?? whyNoFill(fuel) },
    ),
  );
  const lagging =
    layout === null
      ? "no tanks are planned"
      : laggingWorthOf(locomotive, models.all, plan, layout, plannedMinutes(models));
  const result = {
    demand: water === null ? noRun : expectedOf(water, amount * mlPerG, "ml"),
    bound: boundMl === null ? noRun : limitOf(boundMl, "ml"),
    needed: waterMl === null ? noRun : limitOf(waterMl / (plan.usableFraction ?? USUAL_USABLE), "ml"),
    probability,
    // those without a load are left aside where the water is read off the line
    runs: models.told.filter(({ trainMassKg }) => water?.byLoad !== true || trainMassKg !== null),
    byLoad: water?.byLoad ?? false,
    withMoreRuns:
      water === null
        ? []
        : boundWithMoreRuns(water, probability, amount * mlPerG).map(({ moreRuns, bound }) => ({
            moreRuns,
            boundMl: bound,
          })),
    tanks: start === null || layout === null ? [] : tanksOf(start, layout, fit),
    fit: fit?.fit ?? null,
    fuel,
    feeding,
    endurance,
    lagging: typeof lagging === "string" ? null : lagging,
    cutting: layout === null ? [] : cuttingList(locomotive, layout, plan.tanks?.bendFactor),
  };
  const warnings = [
    ...sizingWarnings(locomotive, plan, models, result, supply.ml),
    ...(layout === null ? [] : sharedRoom(layout)),
  ];
  const sizing = { ...result, warnings };
  return { sizing, layout };
}

function whyNoDemand(kind: PlanKind, runs: readonly RunFigures[]): string {
  if (runs.length === 0) return "no steaming was chosen";
  const [first] = runs.map((run) => run.per[kind].water);
  return first !== undefined && first.value === null
    ? `no chosen steaming tells the demand: ${first.why}`
    : "no chosen steaming tells the demand";
}

/** Why a tank of known size gives no fuel to reckon with. */
const whyNoFill = ({ holdsMl, fillMl, spare }: Sizing["fuel"]): string | null =>
  holdsMl === null ? null : fillMl === null ? spare : "the fuel's density is not known";

/** A solid fuel has no tank that could hold so much of it: that is why nothing is said of how long it lasts. */
function asCarried(locomotive: Locomotive, endurance: Sizing["endurance"]): Sizing["endurance"] {
  if (!isSolid(locomotive.fuel) || endurance.fuelLasts.value !== null) return endurance;
  const why = "a solid fuel is fired by hand and weighed: how much is carried is not recorded";
  return {
    ...endurance,
    fuelLasts: { value: null, why },
    why: endurance.fuelEndsFirst === null ? why : endurance.why,
  };
}

/** Minutes that the plan takes at the pace of the runs; null where that is not known. */
function plannedMinutes({ kind, amount, runs }: Models): number | null {
  if (kind === "minutes") return amount;
  const paces = runs.flatMap(({ per }) => {
    const [minutes, ran] = [per.minutes.amount, per[kind].amount];
    return minutes === null || ran === null || ran === 0 ? [] : [minutes / ran];
  });
  return paces.length === 0 ? null : (amount * paces.reduce((a, b) => a + b, 0)) / paces.length;
}

function tanksOf(start: Layout, layout: Layout, fit: Fitted | null): Sizing["tanks"] {
  const made = layout.tanks.map((tank): Sizing["tanks"][number] => {
    const { shape, water, why } = heldBy(layout, tank);
    const none = { value: null, why: why ?? "not reckoned" } as const;
    const { kind } = tank;
    return {
      name: tank.name ?? kind,
      kind,
      count: kind === "side-pair" ? 2 : 1,
      lengthMm: shape?.lengthMm ?? null,
      heightMm: shape?.heightMm ?? null,
      widthMm: shape === null || !(shape.widthMm > 0) ? null : shape.widthMm,
      holds: water === null ? none : limitOf(water.wholeMl, "ml"),
      usable: water === null ? none : limitOf(water.usableMl, "ml"),
    };
  });
  const place = fit?.notNeeded ?? null;
  const left = place === null ? undefined : start.tanks[place];
  if (place === null || left === undefined) return made;
  const none = { value: null, why: fit?.fit.solved?.why ?? "not needed" } as const;
  return made.toSpliced(place, 0, {
    name: tankName(start, place),
    kind: left.kind,
    count: left.kind === "side-pair" ? 2 : 1,
    lengthMm: null,
    heightMm: null,
    widthMm: null,
    holds: none,
    usable: none,
  });
}
