import { checkedMm } from "./build-up.ts";
import { type Closer, closersOf, UNDERSIDE } from "./closers.ts";
import { heldBy, type Layout, tankName, troublesOf, usableMl, withDimension } from "./layout.ts";
import { gapBetween, heldAndNeeded, inHundred, roundedDown, roundedUp } from "./rounding.ts";
import { sensitivitiesOf } from "./sensitivity.ts";
import type { Sizing } from "./sizing-schema.ts";
import { dimensionFor } from "./solve.ts";
import type { Tanks } from "./tanks-schema.ts";

export type Fit = NonNullable<Sizing["fit"]>;

export interface Fitted {
  /** with the free dimension as it was solved; a tank that is not needed is left out */
  layout: Layout;
  fit: Fit;
  /** place of the tank that is not needed */
  notNeeded: number | null;
}

/** What the run asks: its length, what one lap, minute or metre takes at the bound, and the water for all of it. */
export interface Asked {
  waterMl: number;
  amount: number;
  mlPerUnit: number;
  unit: string;
}

/** What the boiler holds between its levels where nothing can feed it in steam: all the water that there is. */
export interface BoilerAlone {
  supplyMl: number;
  boundMl: number;
  /** to be left over in it */
  reserveMl: number;
  probability: number;
  /** whether a bottle has fed it while she ran */
  byBottle: boolean;
}

/** Solves the free dimension where one is named, else judges the tanks as they stand. */
export function fitted(
  layout: Layout,
  solve: Tanks["solve"],
  asked: Asked,
  alone: BoilerAlone | null,
): Fitted {
  if (solve === undefined) {
    return { layout, fit: judged(layout, null, asked, alone, null), notNeeded: null };
  }
  const name = tankName(layout, solve.tank);
  if (alone !== null) {
    // no size of a tank that cannot be drawn on is worth finding
    const { needed, why } = withoutFeed(alone, asked);
    const solved = { tank: name, dimension: solve.dimension, mm: null, needed, why };
    return { layout, fit: judged(layout, solved, asked, alone, null), notNeeded: null };
  }
  const others = { ...layout, tanks: layout.tanks.filter((_, i) => i !== solve.tank) };
  const othersMl = usableMl(others);
  if (othersMl >= asked.waterMl - 1e-9) {
    const why =
      others.tanks.length === 0
        ? "not needed: no water has to be carried in it"
        : `not needed: the other tanks hold ${roundedDown(othersMl, 0)} ml, and that is enough`;
    const solved = { tank: name, dimension: solve.dimension, mm: null, needed: false, why };
    return { layout: others, fit: judged(others, solved, asked, alone, null), notNeeded: solve.tank };
  }
  const atMostMm = checkedMm(solve.atMost, layout.scale);
  const { mm, bestMm } = dimensionFor(layout, solve.tank, solve.dimension, asked.waterMl, atMostMm);
  const solvedLayout = withDimension(layout, solve.tank, solve.dimension, mm ?? bestMm ?? atMostMm);
  const own = solvedLayout.tanks[solve.tank];
  const why =
    mm === null ? whyNot(own === undefined ? null : heldBy(solvedLayout, own).why, bestMm, atMostMm) : null;
  const solved = { tank: name, dimension: solve.dimension, mm, needed: true, why };
  const limit = { tank: solve.tank, dimension: solve.dimension, atMostMm };
  return { layout: solvedLayout, fit: judged(solvedLayout, solved, asked, alone, limit), notNeeded: null };
}

function whyNot(impossible: string | null, bestMm: number | null, atMostMm: number): string {
  if (impossible !== null) return impossible;
  const most = `even at ${atMostMm.toFixed(1)} mm, the most allowed, the tanks hold too little`;
  return bestMm === null || bestMm > atMostMm - 1
    ? most
    : `at no size up to ${atMostMm.toFixed(1)} mm do the tanks hold enough; they hold most at about ${bestMm.toFixed(0)} mm`;
}

function judged(
  layout: Layout,
  solved: Fit["solved"],
  asked: Asked,
  alone: BoilerAlone | null,
  limit: { tank: number; dimension: string; atMostMm: number } | null,
): Fit {
  const { waterMl } = asked;
  const usable = usableMl(layout);
  const fit = { waterMl, usableMl: usable, solved, sensitivity: sensitivitiesOf(layout) };
  if (alone !== null) return { ...fit, ...withoutFeed(alone, asked) };
  if (waterMl <= 0) {
    return {
      ...fit,
      needed: false,
      drawable: true,
      enough: true,
      why: "no tank is needed: the boiler gives it all",
      short: null,
    };
  }
  const { notKnown, notMade } = troublesOf(layout);
  const why = notKnown ?? notMade;
  const shortMl = waterMl - usable;
  const lacking = shortMl > 1e-6 && notKnown === null;
  return {
    ...fit,
    needed: true,
    drawable: true,
    enough: shortMl <= 1e-6 && why === null,
    why,
    short: lacking ? gapOf(layout, asked, shortMl, limit) : null,
  };
}

type Verdict = Pick<Fit, "needed" | "drawable" | "enough" | "why" | "short">;

export const NO_FEED =
  "nothing can bring their water into the boiler while it is in steam: the engine has no pump";
export const BOTTLE = "in steam she is fed from a bottle alone, and no pump or injector draws on a tank";

function withoutFeed(alone: BoilerAlone, asked: Asked): Verdict {
  const { supplyMl, reserveMl, byBottle } = alone;
  const neededMl = alone.boundMl + reserveMl;
  const shortMl = neededMl - supplyMl;
  if (shortMl <= 1e-6) {
    const why = `no tank is needed: the boiler's own ${roundedDown(supplyMl, 0)} ml last the run ${inHundred(alone.probability)} times in 100${reserveMl > 0 ? ` and leave ${roundedUp(reserveMl, 0)} ml in reserve` : ""}, and ${byBottle ? "nothing but a bottle" : "nothing"} could feed it in steam`;
    return { needed: false, drawable: false, enough: true, why, short: null };
  }
  const shorter = shorterPlan(asked, shortMl);
  const other = `${byBottle ? "the bottle on the way, or " : ""}a pump`;
  const remedy =
    shorter === null
      ? `no shorter run would do, only ${other}`
      : `a run of ${shorter.words} would do, or ${other}`;
  const { held, needed } = heldAndNeeded(supplyMl, neededMl);
  const words = `the boiler's own ${held} ml are all that there is of the ${needed} ml needed: ${remedy}`;
  const short = {
    ml: shortMl,
    ofPlan: shorter?.fewer ?? null,
    unit: asked.unit,
    closers: [],
    words,
  };
  return { needed: true, drawable: false, enough: false, why: byBottle ? BOTTLE : NO_FEED, short };
}

/** In whole laps, minutes or metres; null where even one is too much. */
function shorterPlan(
  { amount, mlPerUnit, unit }: Asked,
  shortMl: number,
): { fewer: number; words: string } | null {
  const left = roundedDown(amount - shortMl / mlPerUnit, 0);
  if (!(left >= 1)) return null;
  const fewer = roundedUp(amount - left, 1);
  return { fewer, words: `${left} ${left === 1 && unit === "laps" ? "lap" : unit} (${fewer} fewer)` };
}

function gapOf(
  layout: Layout,
  asked: Asked,
  shortMl: number,
  solved: { tank: number; dimension: string; atMostMm: number } | null,
): NonNullable<Fit["short"]> {
  const shorter = shorterPlan(asked, shortMl);
  const closers = closersOf(layout, asked.waterMl, { solved }).map(({ tank, ...closer }: Closer) => ({
    tank: tank === null ? null : tankName(layout, tank),
    ...closer,
  }));
  const [best] = closers;
  const gap = gapBetween(asked.waterMl - shortMl, asked.waterMl);
  const remedies = [
    ...(shorter === null ? [] : [`a run of ${shorter.words}`]),
    ...(best === undefined ? [] : [closerWords(best)]),
    `another tank (well, bunker, tender) of ${gap} ml for use`,
  ];
  const words = `${gap} ml short: ${remedies.join(", or ")} would do`;
  return { ml: shortMl, ofPlan: shorter?.fewer ?? null, unit: asked.unit, closers, words };
}

const closerWords = ({
  tank,
  dimension,
  change,
  byMm,
}: NonNullable<Fit["short"]>["closers"][number]): string =>
  dimension === UNDERSIDE
    ? `the ${tank} set ${byMm.toFixed(1)} mm higher`
    : `${byMm.toFixed(1)} mm ${change} ${dimension}${tank === null ? "" : ` of the ${tank}`}`;
