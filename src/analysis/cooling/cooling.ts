import {
  absent,
  combined,
  type Figure,
  interval,
  type Measured,
  measured,
  measuredWithShared,
  standardUncertainty,
} from "../../quantity/measured.ts";
import { rangeOf } from "../../quantity/weighed-ways.ts";
import { LEAKS_UNSEEN, leaksUpTo, NO_LEAK } from "../leaks/leak-thought.ts";
import type { Sources } from "../sources.ts";
import { sharedSource } from "../state/instruments.ts";
import { fireBurning, type Stretch } from "../state/phases.ts";
import type { Water } from "../water/water.ts";
import { letOut, wholeLeakOf } from "./cooling-causes.ts";
import { type Fitted, fittedCooling } from "./cooling-fit.ts";
import { type CoolingModel, coolingModel } from "./cooling-model.ts";
import { blownUntilS, type CoolingReading, coolingReadings, shutInWindow } from "./shut-in-course.ts";
import { type Drop, mostLeaked, shutInWater, usedInHold } from "./shut-in-water.ts";
import { enoughRead, whyNeverShutIn, whyTooFew } from "./why-no-cooling.ts";

export interface Cooling {
  /** W, through the surface alone at working pressure in the recorded air */
  lossAtWorkingPressure: Figure;
  /** g/min at working pressure */
  leak: Figure;
  /** the readings used, s since the start; null where there were too few */
  window: readonly [fromS: number, toS: number] | null;
}

/** Power of the law, 1.25 +/- this: it tells where working pressure lies outside the window. */
const U_POWER = 0.05;
/** Heat capacity of the metal: the spread of its specific heat between 20 and 150 °C. */
const METAL_RELATIVE = 0.02;
/** Part of the water by which it is varied to see how the loss goes with it. */
const WATER_STEP = 0.01;
/** Beyond this part of what was thought beforehand, the readings have not told anything. */
const NOT_TOLD_BEYOND = 0.7;

/** A leak takes no more than this part of all the heat that goes (our choice): the rest goes through the surface. */
const MOST_BY_LEAK = 0.9;

/** Loss and leak of a boiler shut in hot; null where she never was, and was not to be. */
export function coolingOf(from: Sources, water: Water): Cooling | null {
  const none = (why: string): Cooling => ({
    lossAtWorkingPressure: absent(why),
    leak: absent(why),
    window: null,
  });
  const window = shutInWindow(from);
  if (window === null) return from.steaming.purpose === "hot-hold" ? none(whyNeverShutIn(from)) : null;
  const all = coolingReadings(from, ...window);
  const blownS = blownUntilS(all);
  const stretch: Stretch = [blownS ?? window[0], window[1]];
  const readings = blownS === null ? all : coolingReadings(from, ...stretch);
  if (!enoughRead(readings)) return none(whyTooFew(from, window));
  const used = readings as [CoolingReading, ...CoolingReading[]];
  const span: Stretch = [used[0].atS, (used.at(-1) as CoolingReading).atS];
  const fireOutS = fireBurning(from.timeline).findLast(([, outS]) => outS <= stretch[0])?.[1];
  const { contents, drop, why: noDrop } = shutInWater(from, water, stretch, used);
  if (contents.value === null) {
    const why = `the heat that the boiler holds is not known: ${contents.why}`;
    return { ...none(why), leak: drop === null ? absent(noDrop) : notInwards(leakByWater(from, drop)) };
  }
  const modelWith = (grams: number) => coolingModel(from, used, grams, fireOutS ?? stretch[0]);
  const model = modelWith(contents.value);
  const roughW = roughLossW(model);
  const allThrough = (one: CoolingModel) =>
    fittedCooling(from, one, null, roughW, [NO_LEAK]).loss.figure.value;
  const heatW = roughW > 0 ? allThrough(model) : 0;
  if (!(heatW > 0)) return none("the pressure did not fall with all shut");
  const perhaps = drop === null && usedInHold(from) ? mostLeaked(from, water, used) : null;
  const whole = wholeLeakOf(model, heatW);
  const leaks = perhaps === null ? LEAKS_UNSEEN : leaksUpTo(Math.min(perhaps / whole, MOST_BY_LEAK));
  const { loss, leak } = fittedCooling(from, model, drop, heatW, leaks);
  const more = WATER_STEP * contents.value;
  const perGram = (loss.figure.value * (allThrough(modelWith(contents.value + more)) / heatW - 1)) / more;
  const tells = loss.left < NOT_TOLD_BEYOND && loss.figure.value > 0;
  return {
    window: span,
    lossAtWorkingPressure: tells
      ? withHeatHeld(loss, model, contents, perGram)
      : absent("the fall of pressure is lost in its reading errors: leave her shut in for longer"),
    leak: drop === null ? absent(noDrop) : leakOf(leak.figure, leakByWater(from, drop), drop, whole),
  };
}

/** Loss at working pressure, W, as if the later half of the fall were all loss: a start for the search. */
export function roughLossW({
  storedJ,
  lossMeasures,
  workingMeasure,
}: Pick<CoolingModel, "storedJ" | "lossMeasures" | "workingMeasure">): number {
  const [middle, end] = [storedJ.length >> 1, storedJ.length];
  const quarter = (middle + end) >> 1;
  const mean = (column: Float64Array, start: number, stop: number) =>
    column.slice(start, stop).reduce((a, b) => a + b, 0) / (stop - start);
  const fall = mean(storedJ, middle, quarter) - mean(storedJ, quarter, end);
  const over = mean(lossMeasures, quarter, end) - mean(lossMeasures, middle, quarter);
  return (fall / over) * workingMeasure;
}

/** The loss goes as the heat that water and metal hold: what is not known of those, beside what the readings leave. */
function withHeatHeld(
  { figure, lumps }: Fitted,
  model: CoolingModel,
  contents: Measured,
  perGram: number,
): Measured {
  const far = U_POWER * Math.abs(Math.log(model.workingExcessK / model.meanExcessK));
  const ofMetal = METAL_RELATIVE * model.metalShare * figure.value;
  const beside = combined(0, "W", [
    [contents, perGram],
    [measured(0, ofMetal, "W", "heat capacity of the metal"), 1],
    [measured(0, far * figure.value, "W", "power of the law of loss"), 1],
  ]);
  const whole = combined(figure.value, "W", [
    [figure, 1],
    [beside, 1],
  ]);
  return { ...whole, range95: rangeOf(lumps, standardUncertainty(beside)) };
}

/** By weight alone nothing tells steam from water. */
const HALF_STEAM = { steam: 0.5 };

/** By the water alone: what left over what a leak of 1 g/min lets out in the same time, half of it taken as steam. */
function leakByWater({ locomotive }: Sources, drop: Drop): Measured {
  const { left, uG, dialG } = drop;
  const perLeakG = letOut(drop, HALF_STEAM);
  const perG = -left.value / perLeakG ** 2;
  const dial = sharedSource.dial(locomotive);
  return combined(left.value / perLeakG, "g/min", [
    [left, 1 / perLeakG],
    [measured(0, uG, "g", "pressure not read"), perG],
    [measuredWithShared(0, dialG, "g", "bias of the pressure dial", dial), perG],
  ]);
}

/**
 * The value heeds how large leaks usually are; the range does not, and is what the water that left allows by itself. A range
 * that heeds it holds a usual leak too often and a large one too seldom wherever the glass tells little: boiling water of
 * six tenths of the heat's worth 31 times of 40, ours 98.3 times in 100.
 */
function leakOf(figure: Measured, byWater: Measured, drop: Drop, whole: number): Figure {
  if (standardUncertainty(drop.left) > whole * drop.perLeakG)
    return absent(
      "the fall of water with all shut is lost in its reading errors: read the glass more often, and for longer",
    );
  return notInwards(figure, byWater);
}

/** Nothing leaks inwards: value and range end at none, and the range reaches a standard uncertainty beyond the value. */
function notInwards(figure: Measured, ofRange = figure): Measured {
  const [low, high] = interval(ofRange);
  const value = Math.max(0, figure.value);
  const range95: readonly [number, number] = [
    Math.max(0, Math.min(low, value)),
    Math.max(high, value + standardUncertainty(figure)),
  ];
  return { ...figure, value, range95 };
}
