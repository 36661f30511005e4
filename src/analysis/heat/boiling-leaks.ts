import { isMeasured, type Measured, measured, standardUncertainty } from "../../quantity/measured.ts";
import { leaksOf } from "../leaks/leaks.ts";
import { meanOver } from "../pressure/pressure-over-time.ts";
import type { Sources } from "../sources.ts";
import type { Piece } from "./factor-of-evaporation.ts";

/**
 * Past a clack in good order so much goes of the steam that the fire makes while it raises, boiling, and it carries off no heat
 * of evaporation; as much in doubt (our estimate: a clack is thought worth mending from 0.3 to 0.5 g/min on, common practice, and
 * in good order passes a small part of that, of 2 to 15 g/min that a fire makes; larger engines have larger fires and fittings).
 */
const OF_FIRE = 0.01;
/**
 * What a look at it tells, g/min, give or take so much of that: a drop is 0.05 ml (common practice); dripping is one each 2 to 12 s, weeping
 * one now and then, damp none (our estimates).
 */
const LOOKED = { dry: 0.01, damp: 0.04, weeping: 0.13, dripping: 0.5, blowing: 2 };
const LOOKED_WITHIN = 0.6;
/** More than this part of what was drawn is not thought to have left so unless it was seen (our choice). */
const MOST_OF_DRAWN = 0.25;

/** What drives such a leak: full fire, as the steam it makes, and what was drawn in all. */
export interface Driven {
  fireGPerMin: number;
  drawnG: number;
}

/**
 * Heat of evaporation that what was drawn did not carry off, for some of it leaked below the water, J: what a drip or a look
 * tells, else what is thought; as the root of the gauge pressure. None of an engine of which no clack was written down.
 */
export function leakedBoilingJ(
  from: Sources,
  parts: readonly Piece[],
  steamS: number,
  driven: () => Driven,
): Measured {
  const clacks = from.locomotive.fittings.filter(({ kind }) => kind === "clack").map(({ id }) => id);
  const none = measured(0, 0, "J", LEAKED);
  if (clacks.length === 0) return none;
  const working = from.locomotive.workingPressureBarG;
  const [minutes, jPerG] = parts.reduce(
    ([minutes, jPerG], piece) => {
      const [a, b] = [Math.max(piece.fromS, steamS), piece.toS];
      const barG = b > a ? (meanOver(from.pressure, a, b) ?? 0) : 0;
      const full = barG > 0 ? ((b - a) / 60) * Math.sqrt(barG / working) : 0;
      return [minutes + full, jPerG + (full * (piece.jPerKg - piece.waterJPerKg)) / 1000];
    },
    [0, 0],
  );
  const seen = seenAt(from, clacks);
  if (!(minutes > 0)) return none;
  if (seen !== null) return measured(seen.gPerMin * jPerG, seen.u * jPerG, "J", LEAKED);
  const { fireGPerMin, drawnG } = driven();
  const most = MOST_OF_DRAWN * Math.max(0, drawnG);
  const thoughtJ = (jPerG / minutes) * Math.min(OF_FIRE * fireGPerMin * minutes, most);
  return measured(thoughtJ, thoughtJ, "J", LEAKED);
}

const LEAKED = "boiling water that leaked";

/** What the clacks were seen to pass, g/min at working pressure: by what was caught, else by the looks; null where nobody looked. */
function seenAt(from: Sources, clacks: readonly string[]): { gPerMin: number; u: number } | null {
  const caught = (leaksOf(from) ?? []).flatMap(({ fitting, rate }) =>
    clacks.includes(fitting) && isMeasured(rate)
      ? [{ gPerMin: rate.value, u: standardUncertainty(rate) }]
      : [],
  );
  if (caught.length > 0) return meanOf(caught);
  const looks = from.timeline.of("look").flatMap(({ fitting, grade }) => {
    const gPerMin = LOOKED[grade];
    return clacks.includes(fitting) ? [{ gPerMin, u: LOOKED_WITHIN * gPerMin }] : [];
  });
  return looks.length > 0 ? meanOf(looks) : null;
}

const meanOf = (seen: readonly { gPerMin: number; u: number }[]) => ({
  gPerMin: seen.reduce((sum, one) => sum + one.gPerMin, 0) / seen.length,
  u: seen.reduce((sum, one) => sum + one.u, 0) / seen.length,
});
