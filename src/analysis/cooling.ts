import {
  absent,
  type Figure,
  interval,
  type Measured,
  scaled,
  standardUncertainty,
} from "../quantity/measured.ts";
import { type Fitted, fittedLeak, fittedLoss } from "./cooling-fit.ts";
import { type CoolingModel, coolingModel } from "./cooling-model.ts";
import { fireStretches } from "./phases.ts";
import { coolingReadings, shutInWindow } from "./shut-in-course.ts";
import type { Sources } from "./sources.ts";
import { drawnWithin, notTold, type Water } from "./water.ts";

export interface Cooling {
  /** W, through the surface alone at working pressure in the recorded air */
  lossAtWorkingPressure: Figure;
  /** g/min at working pressure */
  leak: Figure;
  /** the readings used, s since the start; null where there were too few */
  window: readonly [fromS: number, toS: number] | null;
}

const LEAST_READINGS = 4;
const LEAST_S = 150;
/** Power of the law, 1.25 +/- this: it tells where working pressure lies outside the window. */
const U_POWER = 0.05;
/** Heat capacity of the metal: the spread of its specific heat between 20 and 150 °C. */
const METAL_RELATIVE = 0.02;
/** Part of the water by which it is varied to see how the loss goes with it. */
const WATER_STEP = 0.01;
/** Beyond this part of what was thought beforehand, the readings have not told anything. */
const NOT_TOLD_BEYOND = 0.7;

/** A reading of the water counts for an end of the window it is so near to, s. */
const BESIDE_S = 120;
/** What an engine of this size may leak unseen, g/min (our estimate). */
const LEAK_PERHAPS_G_PER_MIN = 0.5;
const WEIGHED_ONLY =
  "the engine was weighed, which tells the water that left and not what she holds: read the glass too, or measure the filling";

/** Loss and leak of a boiler shut in hot; null where it never was. */
export function coolingOf(from: Sources, water: Water): Cooling | null {
  const stretch = shutInWindow(from);
  if (stretch === null) return null;
  const none = (why: string): Cooling => ({
    lossAtWorkingPressure: absent(why),
    leak: absent(why),
    window: null,
  });
  const readings = coolingReadings(from, ...stretch);
  const [first, last] = [readings[0], readings.at(-1)];
  if (first === undefined || last === undefined || readings.length < LEAST_READINGS)
    return none(
      "too few pressures were read with all shut and steam still up: read the dial each minute or two once the fire is out",
    );
  if (last.atS - first.atS < LEAST_S)
    return none("the boiler was shut in for too short a time: leave it so for five minutes or more");
  const fireOutS = fireStretches(from.timeline).findLast(([, outS]) => outS <= stretch[0] + 1)?.[1];
  const modelWith = (grams: number) => coolingModel(from, readings, grams, fireOutS ?? stretch[0]);
  const drop = dropWithin(water, stretch[0], first.atS, last.atS);
  const contents = contentsAtFirst(water, first.atS, last.atS);
  if (contents.value === null) {
    const why = `the heat that the boiler holds is not known: ${contents.why}`;
    const { perLeakG } = modelWith(0);
    const leak = drop.value === null ? drop : notInwards(scaled(drop, 1 / perLeakG, "g/min"));
    return { ...none(why), leak };
  }
  const model = modelWith(contents.value);
  const roughW = roughLossW(model);
  if (!(roughW > 0)) return none("the pressure did not fall with all shut");
  const rough = fittedLoss(from, model, drop, { lossW: roughW, leakGPerMin: 0 });
  if (!(rough.figure.value > 0)) return none("the pressure did not fall with all shut");

  const seen = fittedLeak(from, model, drop, { lossW: rough.figure.value, leakGPerMin: 0 });
  const thought = { lossW: rough.figure.value, leakGPerMin: seen.figure.value };
  const loss = fittedLoss(from, model, drop, thought);
  const more = WATER_STEP * contents.value;
  const heavier = fittedLoss(from, modelWith(contents.value + more), drop, thought);
  const perGram = (heavier.figure.value - loss.figure.value) / more;
  const tells = loss.left < NOT_TOLD_BEYOND && loss.figure.value > 0;
  return {
    window: [first.atS, last.atS],
    lossAtWorkingPressure: tells
      ? withHeatHeld(loss.figure, model, contents, perGram)
      : absent("the fall of pressure is lost in its reading errors: leave her shut in for longer"),
    leak: drop.value === null ? absent(drop.why) : leakOf(fittedLeak(from, model, drop, thought)),
  };
}

/** Loss at working pressure, W, as if the later half of the fall were all loss: a start for the search. */
function roughLossW({ storedJ, lossMeasures, workingMeasure }: CoolingModel): number {
  const [middle, end] = [storedJ.length >> 1, storedJ.length];
  const quarter = (middle + end) >> 1;
  const mean = (column: Float64Array, start: number, stop: number) =>
    column.slice(start, stop).reduce((a, b) => a + b, 0) / (stop - start);
  const fall = mean(storedJ, middle, quarter) - mean(storedJ, quarter, end);
  const over = mean(lossMeasures, quarter, end) - mean(lossMeasures, middle, quarter);
  return (fall / over) * workingMeasure;
}

/** The loss goes as the heat that water and metal hold: what is not known of those, beside what the readings leave. */
function withHeatHeld(loss: Measured, model: CoolingModel, contents: Measured, perGram: number): Measured {
  const far = U_POWER * Math.abs(Math.log(model.workingExcessK / model.meanExcessK));
  const ofWater = contents.parts.map((part) => {
    const u = part.u * perGram;
    return { ...part, u: part.source === undefined ? Math.abs(u) : u };
  });
  const parts = [
    ...loss.parts,
    ...ofWater,
    { name: "heat capacity of the metal", u: METAL_RELATIVE * model.metalShare * loss.value },
    { name: "power of the law of loss", u: far * loss.value },
  ];
  return { ...loss, parts: parts.filter((part) => part.u !== 0) };
}

/**
 * Water in the boiler at the first pressure of the window, g: from the balance, else from a lone reading while shut in,
 * with doubt for what may have left between the two.
 */
function contentsAtFirst(water: Water, firstS: number, lastS: number): Figure {
  const { input, balance, why } = water;
  const readings = input.readings.filter(({ of }) => of === "contents");
  const [only] = readings;
  // the weight of the whole engine alone tells what left, not what stood in the boiler
  if (only === undefined) return absent(why.startsWith("nothing") ? why : WEIGHED_ONLY);
  if (balance !== null)
    return balance.estimate({ unit: "g", contents: [[firstS, 1]] }) ?? absent(notTold(water));
  if (readings.length > 1 || only.atS < firstS - BESIDE_S || only.atS > lastS + BESIDE_S) return absent(why);
  const leftG = (LEAK_PERHAPS_G_PER_MIN * Math.abs(only.atS - firstS)) / 60;
  return {
    value: only.grams,
    unit: "g",
    parts: [
      { name: "readings", u: only.uGrams },
      ...only.shared.map(({ uGrams, ...part }) => ({ ...part, u: uGrams })),
      { name: "leak not known", u: leftG },
    ].filter(({ u }) => u !== 0),
  };
}

/**
 * Water that left while shut in, g. Where none was read about both ends of the window, the share that left within it is
 * only a guess about when she leaked, and tells nothing of the leak.
 */
function dropWithin(water: Water, shutS: number, firstS: number, lastS: number): Figure {
  const { readings } = water.input;
  const aside = Math.max(BESIDE_S, (lastS - firstS) / 4);
  const read = (fromS: number, toS: number) => readings.some(({ atS }) => atS >= fromS && atS <= toS);
  const told =
    read(Math.min(shutS, firstS) - BESIDE_S, firstS + aside) && read(lastS - aside, lastS + 2 * aside);
  return told || water.balance === null ? drawnWithin(water, [[firstS, lastS]]) : absent(notTold(water));
}

/** Nothing leaks inwards: value and range end at none. */
function leakOf({ figure: leak, left }: Fitted): Figure {
  if (left > NOT_TOLD_BEYOND)
    return absent(
      "the fall of water with all shut is lost in its reading errors: read the glass more often, and for longer",
    );
  return notInwards(leak);
}

function notInwards(leak: Measured): Figure {
  const [low, high] = interval(leak);
  if (low >= 0) return leak;
  return {
    ...leak,
    value: Math.max(0, leak.value),
    range95: [0, Math.max(high, standardUncertainty(leak))],
  };
}
