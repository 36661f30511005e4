import type { Locomotive } from "../../logbook/locomotive.ts";

/** No kitchen's scale weighs a cup surer than this, g, and most as this (our estimates). */
const SUREST_G = 0.02;
const USUAL_G = 0.1;

/** Round grams are a scale's step once so many catches are all round: one or two are so by chance (our choice). */
const ROUND_BY_CHANCE = 2;

/**
 * Standard uncertainty of weighing a catch, g: as declared, else one step of the scale, as the finest of the
 * written catches shows it; empty cups show none.
 * @param caughtG as written, g
 */
export function weighingG({ instruments }: Locomotive, caughtG: readonly number[]): number {
  if (instruments?.massReadingG !== undefined) return instruments.massReadingG;
  const full = caughtG.filter((g) => g > 0);
  const coarsest = full.length > ROUND_BY_CHANCE ? [1] : [];
  const step = [...coarsest, USUAL_G, 0.01].find((one) => full.every((g) => onStep(g, one)));
  return Math.max(SUREST_G, step ?? SUREST_G);
}

const onStep = (g: number, step: number): boolean => Math.abs(g / step - Math.round(g / step)) < 1e-6;
