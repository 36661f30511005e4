import type { Fuel } from "../logbook/locomotive.ts";
import { type Figure, type Measured, standardUncertainty } from "../quantity/measured.ts";
import { linearEstimator } from "../statistics/linear-estimate.ts";
import { type CoolingModel, STEAM_SHARE } from "./cooling-model.ts";
import { sharedSource } from "./instruments.ts";
import type { Sources } from "./sources.ts";
import { averaged, type Cause, weighedWays } from "./weighed-ways.ts";

/** Gusts of a twentieth of the loss that last a minute (our choice): 2 x 0.05^2 x 60 s. */
const GUSTS_S = 0.3;
/** What a leak is thought to take beforehand, as a share of the heat lost through the surface. */
export const LEAK_SHARE = 0.1;
/** The dying fire still gives this many losses' worth of its time, and as much doubt (our choice). */
const DYING = { mean: 2, u: 2 };
/** Times in which a fire may die once put out, s (common practice): coals glow on, spirit and gas are out at once. */
const DIES_S: Partial<Record<Fuel["kind"], readonly number[]>> = {
  coal: [60, 120, 200, 300],
  charcoal: [60, 120, 200, 300],
  other: [10, 60, 200],
};
const AT_ONCE_S = [10];
const DYING_FIRE = "heat of the dying fire";

/** What is thought beforehand, to set the size of what is not known. */
export interface Thought {
  /** loss at working pressure, W */
  lossW: number;
  /** leak at working pressure, g/min */
  leakGPerMin: number;
  /** doubt about the leak, as a share of a leak that takes as much heat as the surface */
  leakDoubt: number;
}

export interface CoolingFit {
  loss: Measured;
  leak: Measured;
  /** what is left of the doubt beforehand, as parts of it */
  lossLeft: number;
  leakLeft: number;
}

const scaledBy = (column: Float64Array, factor: number) => column.map((value) => factor * value);

/**
 * All readings of a shut-in weighed, and averaged over the ways in which the fire may have died, each by how well it
 * explains them.
 * @param drop water that left meanwhile, g; a figure that is absent tells nothing of the leak
 */
export function fittedCooling(
  from: Sources,
  model: CoolingModel,
  drop: Figure,
  thought: Thought,
): CoolingFit {
  const { lossW, leakDoubt } = thought;
  const wholeLeak = (60 * lossW) / model.latentJPerG;
  const leak0 = LEAK_SHARE * wholeLeak;
  const uLeak = leakDoubt * wholeLeak;
  const withDrop = (column: Float64Array, ofDrop = 0) =>
    drop.value === null ? column : Float64Array.from([...column, ofDrop]);
  const causes = causesOf(from, model, thought, leak0, uLeak).map((cause, place) => ({
    ...cause,
    column: withDrop(cause.column, place === LEAK ? uLeak * model.perLeakG : 0),
  }));
  const noise = withDrop(
    model.uJ.map((u) => u * u),
    drop.value === null ? 0 : standardUncertainty(drop) ** 2,
  );
  const wander = gusts(model, lossW, noise.length);
  const weighed = weighedWays(DIES_S[from.locomotive.fuel.kind] ?? AT_ONCE_S, (diesS) => {
    const dying = model.dyingShare(diesS);
    const y = Float64Array.from(model.storedJ, (stored, i) => {
      const lost =
        (lossW / model.workingMeasure) * (model.lossMeasures[i] as number) +
        leak0 * (model.perLeakJ[i] as number);
      return stored - (model.storedJ[0] as number) + lost - DYING.mean * lossW * diesS * (dying[i] as number);
    });
    return linearEstimator({
      y: withDrop(y, (drop.value ?? 0) - leak0 * model.perLeakG),
      noise,
      causes: [...causes.map(({ column }) => column), withDrop(scaledBy(dying, DYING.u * lossW * diesS))],
      wander,
    });
  });
  const parts = [...causes.map(({ part }) => part), { name: DYING_FIRE }];
  const figure = (place: number, doubt: number, unit: string, thoughtOf: number) => {
    const ofWanted = parts.map((_, c) => (c === place ? doubt : 0));
    const {
      value,
      unit: of,
      left,
      parts: found,
    } = averaged(weighed, {
      ofWanted,
      unit,
      parts,
      names: { readings: "pressure readings", wander: "air that was not still", ways: DYING_FIRE },
    });
    return [{ value: thoughtOf + value, unit: of, parts: found }, (left[place] ?? 0) / doubt] as const;
  };
  const [loss, lossLeft] = figure(LOSS, LOSS_DOUBT * lossW, "W", lossW);
  const [leak, leakLeft] = figure(LEAK, uLeak, "g/min", leak0);
  return { loss, leak, lossLeft, leakLeft };
}

/** Places of what is sought among the causes. */
const [LOSS, LEAK] = [0, 1];
/** Doubt about the loss beforehand, as part of what it is thought to be. */
const LOSS_DOUBT = 2;

function causesOf(
  from: Sources,
  model: CoolingModel,
  { lossW, leakGPerMin }: Thought,
  leak0: number,
  uLeak: number,
): Cause[] {
  const { storedJ, seconds } = model;
  const K = lossW / model.workingMeasure;
  const spanJ = Math.abs((storedJ[0] as number) - (storedJ.at(-1) as number));
  const mixture = STEAM_SHARE.u * Math.max(leak0, leakGPerMin);
  return [
    { part: { name: "few readings" }, column: scaledBy(model.lossMeasures, -LOSS_DOUBT * K) },
    { part: { name: "leak not known" }, column: scaledBy(model.perLeakJ, -uLeak) },
    { part: { name: "few readings" }, column: seconds.map(() => 10 * spanJ + 100 * lossW) },
    { part: { name: "whether steam or water leaked" }, column: scaledBy(model.perLeakSteamJ, -mixture) },
    {
      part: { name: "bias of the pressure dial", source: sharedSource.dial(from.locomotive) },
      column: model.dialJ(K),
    },
    { part: { name: "temperature of the air" }, column: model.airJ(K) },
  ];
}

/** Covariance of the heat that gusts took by each reading: it grows with time. */
function gusts({ seconds }: CoolingModel, lossW: number, size: number): Float64Array {
  const wander = new Float64Array(size * size);
  seconds.forEach((_, i) => {
    for (let j = 0; j <= i; j++) wander[i * size + j] = lossW ** 2 * GUSTS_S * (seconds[j] as number);
  });
  return wander;
}
