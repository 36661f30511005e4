import type { Fuel } from "../logbook/locomotive.ts";
import { type Measured, standardUncertainty } from "../quantity/measured.ts";
import { linearEstimator } from "../statistics/linear-estimate.ts";
import { type CoolingModel, STEAM_SHARE } from "./cooling-model.ts";
import { sharedSource } from "./instruments.ts";
import type { Drop } from "./shut-in-water.ts";
import type { Sources } from "./sources.ts";
import { averaged, type Cause, weighedWays } from "./weighed-ways.ts";

/** Gusts of a twentieth of the loss that last a minute (our choice): 2 x 0.05^2 x 60 s. */
const GUSTS_S = 0.3;
/** What a leak is thought to take beforehand, as shares of the heat lost through the surface. */
interface LeakThought {
  share: number;
  doubt: number;
  /** how likely beforehand, against the others */
  weight: number;
}
/**
 * Leaks nobody has seen differ by times, not by a little more or less (our choice): mostly well below a tenth of the heat
 * lost through the surface, at times about a sixth, seldom half of it, hardly ever as much. Which it was, the readings say
 * as far as they can.
 */
const LEAKS_UNSEEN: readonly LeakThought[] = [
  { share: 0.07, doubt: 0.045, weight: 0.6 },
  { share: 0.16, doubt: 0.09, weight: 0.31 },
  { share: 0.45, doubt: 0.25, weight: 0.08 },
  { share: 1, doubt: 0.5, weight: 0.01 },
];
/** Where the leak itself is asked for, next to nothing is thought of it beforehand. */
const LEAK_OPEN: LeakThought = { share: 0.1, doubt: 1, weight: 1 };
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
const LEAK_NOT_KNOWN = "leak not known";

/** What is thought beforehand, to set the size of what is not known. */
export interface Thought {
  /** loss at working pressure, W */
  lossW: number;
  /** leak at working pressure, g/min; and what of it is hardly in doubt */
  leakGPerMin: number;
  leakAtLeast: number;
}

/** A figure, and what is left of the doubt beforehand, as a part of it. */
export interface Fitted {
  figure: Measured;
  left: number;
}

const scaledBy = (column: Float64Array, factor: number) => column.map((value) => factor * value);

interface Way {
  diesS: number;
  leak: LeakThought;
}

/**
 * All readings of a shut-in weighed, and averaged over the ways in which the fire may have died and the sizes that a leak
 * may have, each by how well it explains them.
 * @param drop water that left meanwhile; null where nothing tells it
 */
function weighed(
  from: Sources,
  model: CoolingModel,
  drop: Drop | null,
  thought: Thought,
  leaks: readonly LeakThought[],
) {
  const { lossW } = thought;
  const wholeLeak = wholeLeakOf(model, lossW);
  const withDrop = (column: Float64Array, ofDrop = 0) =>
    drop === null ? column : Float64Array.from([...column, ofDrop]);
  const noise = withDrop(model.uJ.map((u) => u * u));
  const wander = gusts(model, lossW, noise.length);
  const fires = DIES_S[from.locomotive.fuel.kind] ?? AT_ONCE_S;
  const ways = fires.flatMap((diesS) => leaks.map((leak): Way => ({ diesS, leak })));
  const causes = causesOf(from, model, thought, drop);
  const parts = [...causes.map(({ part }) => part), { name: DYING_FIRE }];
  const found = weighedWays(
    ways,
    ({ diesS, leak }) => {
      const leak0 = leak.share * wholeLeak;
      const uLeak = leak.doubt * wholeLeak;
      const sizeOf = (place: number) =>
        place === LEAK
          ? uLeak
          : place === STEAM_OR_WATER
            ? STEAM_SHARE.u * Math.max(leak0, thought.leakAtLeast)
            : 1;
      const dying = model.dyingShare(diesS);
      const y = Float64Array.from(model.storedJ, (stored, i) => {
        const lost =
          (lossW / model.workingMeasure) * (model.lossMeasures[i] as number) +
          leak0 * (model.perLeakJ[i] as number);
        return (
          stored - (model.storedJ[0] as number) + lost - DYING.mean * lossW * diesS * (dying[i] as number)
        );
      });
      return linearEstimator({
        y: withDrop(y, (drop?.left.value ?? 0) - leak0 * (drop?.perLeakG ?? 0)),
        noise,
        causes: [
          ...causes.map(({ column, ofDrop }, place) => {
            const size = sizeOf(place);
            return withDrop(scaledBy(column, size), size * ofDrop);
          }),
          withDrop(scaledBy(dying, DYING.u * lossW * diesS)),
        ],
        wander,
      });
    },
    ({ leak }) => leak.weight,
  );
  const ofWays =
    leaks.length === 1 ? DYING_FIRE : fires.length === 1 ? LEAK_NOT_KNOWN : "leak and dying fire";
  /** the figure of one cause, whose doubt beforehand is the same in every way */
  return (place: number, doubt: number, unit: string, thoughtOf: number): Fitted => {
    const figure = averaged(found, {
      ofWanted: parts.map((_, c) => (c === place ? doubt : 0)),
      unit,
      parts,
      names: { readings: "pressure readings", wander: "air that was not still", ways: ofWays },
    });
    return {
      figure: { value: thoughtOf + figure.value, unit, parts: figure.parts },
      left: (figure.left[place] ?? 0) / doubt,
    };
  };
}

/** Leak that takes as much heat as the surface, g/min. */
const wholeLeakOf = ({ latentJPerG }: CoolingModel, lossW: number): number => (60 * lossW) / latentJPerG;

/** Anything from none to the most that may have leaked, g/min, as shares of the heat lost through the surface. */
function leaksUpTo(model: CoolingModel, lossW: number, mostGPerMin: number): LeakThought[] {
  const most = mostGPerMin / wholeLeakOf(model, lossW);
  return [{ share: most / 2, doubt: most / Math.sqrt(12), weight: 1 }];
}

/**
 * Heat lost through the surface at working pressure, W.
 * @param mostGPerMin the most that may leak, where that is known and the leak is not; null where it is not known
 */
export const fittedLoss = (
  from: Sources,
  model: CoolingModel,
  drop: Drop | null,
  thought: Thought,
  mostGPerMin: number | null = null,
): Fitted =>
  weighed(
    from,
    model,
    drop,
    thought,
    mostGPerMin === null ? LEAKS_UNSEEN : leaksUpTo(model, thought.lossW, mostGPerMin),
  )(LOSS, LOSS_DOUBT * thought.lossW, "W", thought.lossW);

/** Leak at working pressure, g/min, of which next to nothing is thought beforehand. */
export function fittedLeak(from: Sources, model: CoolingModel, drop: Drop | null, thought: Thought): Fitted {
  const wholeLeak = wholeLeakOf(model, thought.lossW);
  const { share, doubt } = LEAK_OPEN;
  const figureOf = weighed(from, model, drop, thought, [LEAK_OPEN]);
  return figureOf(LEAK, doubt * wholeLeak, "g/min", share * wholeLeak);
}

/** Places of what is sought among the causes. */
const LOSS = 0;
/** and of what goes as the size of the leak, which differs by the way: given for 1 g/min */
const [LEAK, STEAM_OR_WATER] = [1, 2];
/** Doubt about the loss beforehand, as part of what it is thought to be. */
const LOSS_DOUBT = 2;

function causesOf(
  from: Sources,
  model: CoolingModel,
  { lossW, leakGPerMin }: Thought,
  drop: Drop | null,
): (Cause & { ofDrop: number })[] {
  const { storedJ, seconds } = model;
  const none = seconds.map(() => 0);
  const K = lossW / model.workingMeasure;
  const spanJ = Math.abs((storedJ[0] as number) - (storedJ.at(-1) as number));
  return [
    { part: { name: "few readings" }, column: scaledBy(model.lossMeasures, -LOSS_DOUBT * K), ofDrop: 0 },
    { part: { name: LEAK_NOT_KNOWN }, column: scaledBy(model.perLeakJ, -1), ofDrop: drop?.perLeakG ?? 0 },
    {
      part: { name: "whether steam or water leaked" },
      column: scaledBy(model.perLeakSteamJ, -1),
      ofDrop: 0,
    },
    { part: { name: "few readings" }, column: seconds.map(() => 10 * spanJ + 100 * lossW), ofDrop: 0 },
    {
      part: { name: "bias of the pressure dial", source: sharedSource.dial(from.locomotive) },
      column: model.dialJ(K),
      // what was let out is reckoned by the dial, and is less by as much as it reads too high
      ofDrop: -leakGPerMin * (drop?.dialG ?? 0),
    },
    { part: { name: "temperature of the air" }, column: model.airJ(K), ofDrop: 0 },
    {
      part: { name: "water that left" },
      column: none,
      ofDrop: drop === null ? 0 : standardUncertainty(drop.left),
    },
    { part: { name: "pressure not read" }, column: none, ofDrop: leakGPerMin * (drop?.uG ?? 0) },
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
