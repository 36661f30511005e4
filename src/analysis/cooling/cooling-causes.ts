import { standardUncertainty } from "../../quantity/measured.ts";
import type { Cause } from "../../quantity/weighed-ways.ts";
import { vectorOf } from "../../statistics/vector.ts";
import type { LeakThought } from "../leaks/leak-thought.ts";
import type { Sources } from "../sources.ts";
import { sharedSource } from "../state/instruments.ts";
import type { CoolingModel } from "./cooling-model.ts";
import type { Drop } from "./shut-in-water.ts";

/** Gusts of a twentieth of the loss that last a minute (our choice): 2 x 0.05^2 x 60 s. */
const GUSTS_S = 0.3;
/** The dying fire still gives this many losses' worth of its time, and as much doubt (our choice). */
export const DYING = { mean: 2, u: 2 };
/** Doubt about the loss beforehand, as part of what it is thought to be. */
export const LOSS_DOUBT = 2;

export const DYING_FIRE = "heat of the dying fire";
export const LEAK_NOT_KNOWN = "leak not known";

/** One way in which a boiler shut in may have cooled. */
export interface Way {
  diesS: number;
  leak: LeakThought;
  /** the loss, W, and the leak, g/min, that this way expects */
  lossW: number;
  leakGPerMin: number;
  /** standard uncertainty of that beside the loss's, g/min */
  leakDoubtGPerMin: number;
}

/** Leak that takes as much heat as the surface, g/min. */
export const wholeLeakOf = ({ latentJPerG }: CoolingModel, lossW: number): number =>
  (60 * lossW) / latentJPerG;

const scaledBy = (column: Float64Array, factor: number) => vectorOf(column, (value) => factor * value);

/** Heat of a leak of 1 g/min at working pressure, so much of it steam, by each reading. */
export const leakHeat = ({ perLeakJ, perLeakSteamJ }: CoolingModel, steam: number): Float64Array =>
  vectorOf(perLeakJ, (water, i) => water + steam * (perLeakSteamJ[i] as number));

/** What a leak of 1 g/min at working pressure lets out between the readings of the water, g. */
export const letOut = (drop: Drop | null, { steam }: Pick<LeakThought, "steam">): number =>
  drop === null ? 0 : drop.perLeakG + (1 - steam) * drop.ifWaterG;

/** Surface and leak share the heat that goes. */
export function wayOf(model: CoolingModel, heatW: number, diesS: number, leak: LeakThought): Way {
  const end = model.seconds.length - 1;
  const whole = wholeLeakOf(model, 1);
  const perWatt = leak.size * whole;
  const ofLeak = perWatt * (leakHeat(model, leak.steam)[end] as number);
  const ofSurface = (model.lossMeasures[end] as number) / model.workingMeasure;
  const lossW = heatW / (1 + Math.max(0, ofLeak / ofSurface));
  return { diesS, leak, lossW, leakGPerMin: perWatt * lossW, leakDoubtGPerMin: leak.doubt * whole * lossW };
}

export function causesOf(
  from: Sources,
  model: CoolingModel,
  drop: Drop | null,
  { diesS, leak, lossW, leakGPerMin, leakDoubtGPerMin }: Way,
  heatW: number,
  logDoubt: number,
): (Cause & { ofDrop: number })[] {
  const { storedJ, seconds } = model;
  const none = new Float64Array(seconds.length);
  const K = lossW / model.workingMeasure;
  const spanJ = Math.abs((storedJ[0] as number) - (storedJ.at(-1) as number));
  const perLeak = leakHeat(model, leak.steam);
  const [earlier, later] = [-logDoubt, logDoubt].map((off) => {
    const otherS = diesS * Math.exp(off);
    return scaledBy(model.dyingShare(otherS), DYING.mean * heatW * otherS);
  }) as [Float64Array, Float64Array];
  return [
    {
      part: { name: "few readings" },
      column: vectorOf(
        model.lossMeasures,
        (measure, i) => -LOSS_DOUBT * (K * measure + leakGPerMin * (perLeak[i] as number)),
      ),
      ofDrop: LOSS_DOUBT * leakGPerMin * letOut(drop, leak),
    },
    {
      part: { name: LEAK_NOT_KNOWN },
      column: scaledBy(perLeak, -leakDoubtGPerMin),
      ofDrop: leakDoubtGPerMin * letOut(drop, leak),
    },
    {
      part: { name: "whether steam or water leaked" },
      column: scaledBy(model.perLeakSteamJ, -leak.steamDoubt * leakGPerMin),
      ofDrop: 0,
    },
    { part: { name: "few readings" }, column: none.slice().fill(10 * spanJ + 100 * heatW), ofDrop: 0 },
    {
      part: { name: "bias of the pressure dial", source: sharedSource.dial(from.locomotive) },
      column: model.dialJ(K),
      // what was let out is reckoned by the dial, and is less by as much as it reads too high
      ofDrop: -leakGPerMin * (drop?.dialG ?? 0),
    },
    { part: { name: "temperature of the air" }, column: model.airJ(K), ofDrop: 0 },
    {
      part: { name: DYING_FIRE },
      column: scaledBy(model.dyingShare(diesS), DYING.u * heatW * diesS),
      ofDrop: 0,
    },
    {
      part: { name: DYING_FIRE },
      column: vectorOf(later, (value, i) => (value - (earlier[i] as number)) / 2),
      ofDrop: 0,
    },
    {
      part: { name: "water that left" },
      column: none,
      ofDrop: drop === null ? 0 : standardUncertainty(drop.left),
    },
    { part: { name: "pressure not read" }, column: none, ofDrop: leakGPerMin * (drop?.uG ?? 0) },
  ];
}

/** Covariance of the heat that gusts took by each reading: it grows with time. */
export function gusts({ seconds }: CoolingModel, lossW: number, size: number): Float64Array {
  const wander = new Float64Array(size * size);
  seconds.forEach((_, i) => {
    for (let j = 0; j <= i; j++) wander[i * size + j] = lossW ** 2 * GUSTS_S * (seconds[j] as number);
  });
  return wander;
}
