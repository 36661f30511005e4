import type { Fuel } from "../../logbook/locomotive.ts";
import type { Measured } from "../../quantity/measured.ts";
import { averaged, type Lump, weighedWays } from "../../quantity/weighed-ways.ts";
import { linearEstimator } from "../../statistics/linear-estimate.ts";
import { vectorOf } from "../../statistics/vector.ts";
import type { LeakThought } from "../leaks/leak-thought.ts";
import type { Sources } from "../sources.ts";
import {
  causesOf,
  DYING,
  gusts,
  LEAK_NOT_KNOWN,
  LOSS_DOUBT,
  leakHeat,
  letOut,
  type Way,
  wayOf,
} from "./cooling-causes.ts";
import type { CoolingModel } from "./cooling-model.ts";
import type { Drop } from "./shut-in-water.ts";

/** Times in which a fire may die once put out, s, and by how much each may be out (common practice): coals glow on, spirit and gas are out at once. */
const COALS = { diesS: [60, 110, 200, 350], logDoubt: 0.17 };
const DIES: Partial<Record<Fuel["kind"], typeof COALS>> = {
  coal: COALS,
  charcoal: COALS,
  other: { diesS: [10, 30, 90, 200], logDoubt: 0.3 },
};
const AT_ONCE = { diesS: [10], logDoubt: 0 };
/** A figure, what it may be in each way that things may have been, and what is left of the doubt beforehand, as a part of it. */
export interface Fitted {
  figure: Measured;
  lumps: readonly Lump[];
  left: number;
}

export interface CoolingFit {
  /** through the surface at working pressure, W */
  loss: Fitted;
  /** at working pressure, g/min */
  leak: Fitted;
}

/** Places of what is sought among the causes. */
const LOSS = 0;
/**
 * All readings of a shut-in weighed, and averaged over the ways in which the fire may have died and the leaks that there may
 * be, each by how well it explains them. In each way the leak goes with the loss, so that neither is ever below none.
 * @param drop water that left meanwhile; null where nothing tells it
 * @param heatW what goes at working pressure through surface and leak together, roughly
 */
export function fittedCooling(
  from: Sources,
  model: CoolingModel,
  drop: Drop | null,
  heatW: number,
  leaks: readonly LeakThought[],
): CoolingFit {
  const withDrop = (column: Float64Array, ofDrop: number) => {
    if (drop === null) return column;
    const longer = new Float64Array(column.length + 1).fill(ofDrop);
    longer.set(column);
    return longer;
  };
  const noise = withDrop(
    vectorOf(model.uJ, (u) => u * u),
    0,
  );
  const wander = gusts(model, heatW, noise.length);
  const fires = DIES[from.locomotive.fuel.kind] ?? AT_ONCE;
  const ways = fires.diesS.flatMap((diesS) => leaks.map((leak) => wayOf(model, heatW, diesS, leak)));
  const causesIn = (way: Way) => causesOf(from, model, drop, way, heatW, fires.logDoubt);
  const parts = causesIn(ways[0] as Way).map(({ part }) => part);
  const found = weighedWays(
    ways,
    (way) => {
      const { lossW, leakGPerMin, diesS } = way;
      const perLeak = leakHeat(model, way.leak.steam);
      const dying = model.dyingShare(diesS);
      const y = vectorOf(model.storedJ, (stored, i) => {
        const lost =
          (lossW / model.workingMeasure) * (model.lossMeasures[i] as number) +
          leakGPerMin * (perLeak[i] as number);
        return (
          stored - (model.storedJ[0] as number) + lost - DYING.mean * heatW * diesS * (dying[i] as number)
        );
      });
      return linearEstimator({
        y: withDrop(y, (drop?.left.value ?? 0) - leakGPerMin * letOut(drop, way.leak)),
        noise,
        causes: causesIn(way).map(({ column, ofDrop }) => withDrop(column, ofDrop)),
        wander,
      });
    },
    ({ leak }) => leak.weight,
  );
  const ofWays = fires.diesS.length === 1 ? LEAK_NOT_KNOWN : "leak and dying fire";
  const names = { readings: "pressure readings", wander: "air that was not still", ways: ofWays };
  const figureOf = (
    unit: string,
    thought: (way: Way) => number,
    ofCauses: (way: Way) => readonly number[],
  ) => {
    const wanted = (place: number) => ofCauses(ways[place] as Way);
    const { value, lumps, left, ...rest } = averaged(found, {
      ofWanted: (place) => [...wanted(place), ...parts.slice(wanted(place).length).map(() => 0)],
      thought: (place) => thought(ways[place] as Way),
      unit,
      parts,
      names,
    });
    const beforehand = Math.sqrt(
      found.reduce((sum, { weight }, place) => sum + weight * (wanted(place)[LOSS] as number) ** 2, 0),
    );
    return { figure: { value, ...rest }, lumps, left: (left[LOSS] as number) / beforehand };
  };
  return {
    loss: figureOf(
      "W",
      ({ lossW }) => lossW,
      ({ lossW }) => [LOSS_DOUBT * lossW],
    ),
    leak: figureOf(
      "g/min",
      ({ leakGPerMin }) => leakGPerMin,
      ({ leakGPerMin, leakDoubtGPerMin }) => [LOSS_DOUBT * leakGPerMin, leakDoubtGPerMin],
    ),
  };
}
