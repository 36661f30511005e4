import { overlapS } from "../../logbook/timeline.ts";
import { combined, type Figure, type Measured } from "../../quantity/measured.ts";
import type { Sources } from "../sources.ts";
import { lengthS, type Stretch } from "../state/phases.ts";
import type { Water } from "../water/water.ts";
import type { Piece } from "./factor-of-evaporation.ts";
import { storedEnergyAt } from "./stored-energy.ts";
import { LOSS } from "./surface-loss.ts";

/** How far the efficiency of one part of the time may lie from that of the rest (our estimate). */
const UNLIKE = 0.08;
/** Of what goes through the surface so much is in doubt (our estimate). */
const U_LOSS = 0.5;

/**
 * Part of the heat of the fire that came while she ran, for as the heat goes so goes the fuel: what was stored and carried off,
 * and what went through the surface meanwhile, which while she warms is half of that when hot. Null where nothing tells, or where she
 * made steam of water that her pump fed unseen.
 * @param pieces of the time from lit to out, with the heat carried off by a kilogram in each
 */
export function heatUnderWay(
  from: Sources,
  water: Water,
  useful: Figure,
  pieces: readonly Piece[],
  feedJPerKg: number,
): Measured | null {
  const { fire } = from.fuel;
  const ran = from.phases.flatMap(({ name, fromS, toS }): Stretch[] =>
    name === "running" && overlapS(fire, fromS, toS) > 0
      ? [[fromS, Math.min(toS, fire.at(-1)?.[1] ?? toS)]]
      : [],
  );
  if (useful.value === null || !(useful.value > 0) || ran.length === 0 || water.balance === null) return null;
  if (water.unseen !== undefined) return null;
  const perG = (jPerKg: number) => (jPerKg - feedJPerKg) / 1000;
  const stored = (atS: number, sign: number) =>
    [atS, sign * (storedEnergyAt(from, atS).jPerG - feedJPerKg / 1000)] as const;
  const byWater = water.balance.estimate({
    unit: "J",
    contents: ran.flatMap(([fromS, toS]) => [stored(toS, 1), stored(fromS, -1)]),
    drawn: pieces
      .filter(({ fromS, toS }) => ran.some(([a, b]) => fromS >= a && toS <= b))
      .flatMap(({ fromS, toS, jPerKg }) => [[toS, perG(jPerKg)] as const, [fromS, -perG(jPerKg)] as const]),
  });
  if (byWater === null) return null;
  const fixedJ = ran.reduce(
    (sum, [fromS, toS]) => sum + storedEnergyAt(from, toS).fixedJ - storedEnergyAt(from, fromS).fixedJ,
    0,
  );
  const ranS = ran.reduce((sum, [fromS, toS]) => sum + overlapS(fire, fromS, toS), 0);
  const raisedS = from.phases.reduce(
    (sum, { name, fromS, toS }) => sum + (name === "raising" ? overlapS(fire, fromS, toS) : 0),
    0,
  );
  const lossW = (LOSS * useful.value) / lengthS(fire);
  const hotS = lengthS(fire) - raisedS / 2;
  const all = useful.value + lossW * hotS;
  const ranJ = byWater.value + fixedJ;
  const share = (ranJ + lossW * ranS) / all;
  if (!(share > 0 && share < 1)) return null;
  const ofLossW = (ranS - share * hotS) / all;
  // of all the heat what it owes with that under way to one source counts; the readings are those of the heat under way
  const owed = { ...useful, parts: useful.parts.filter(({ source }) => source !== undefined) };
  const told = combined(share, "1", [
    [byWater, 1 / all],
    [owed, -ranJ / (useful.value * all)],
  ]);
  const unlike = {
    name: "fire and surface",
    u: Math.hypot(UNLIKE * share * (1 - share), U_LOSS * lossW * ofLossW),
  };
  return { ...told, parts: [...told.parts, unlike] };
}
