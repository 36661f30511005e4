/** What a full boiler takes of water as its pressure rises: by springy metal and water, and by air that is squeezed. */
export interface Softness {
  steadyMlPerBar: number;
  /** at no pressure */
  airMl: number;
  atmosphereBar: number;
}

/** Of air that is squeezed from one gauge pressure to another by Boyle's law, the part that gives way for each bar. */
export const airGives = (atmosphereBar: number, aBar: number, bBar = aBar): number =>
  atmosphereBar / ((atmosphereBar + aBar) * (atmosphereBar + bBar));

/** Water for each bar between two gauge pressures, or at one, ml/bar. */
export const softnessBetween = (
  { steadyMlPerBar, airMl, atmosphereBar }: Softness,
  aBar: number,
  bBar = aBar,
): number => steadyMlPerBar + airMl * airGives(atmosphereBar, aBar, bBar);

/**
 * A measure of pressure that falls steadily while water leaks. What leaks goes as the root of the gauge pressure (Torricelli),
 * C(p) dp/dt = -k sqrt(p), so it is the integral of C(p)/sqrt(p): by metal and water alone twice the root.
 * @param root of the gauge pressure in bar
 */
export function leakingMeasure({ steadyMlPerBar, airMl, atmosphereBar }: Softness, root: number): number {
  const scale = Math.sqrt(atmosphereBar);
  const ofAir = root / (atmosphereBar + root ** 2) + Math.atan(root / scale) / scale;
  return 2 * steadyMlPerBar * root + airMl * ofAir;
}

/** Far more rounds than it takes. */
const MOST_ROUNDS = 60;
const SETTLED = 1e-12;

/** The root of the gauge pressure at which the measure stands so high; 0 where that is below none. */
export function rootAtMeasure(softness: Softness, measure: number): number {
  let root = 0;
  if (!(measure > 0)) return root;
  // ever flatter, so Newton's steps from nothing go up to it and not past
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const steepness = 2 * softnessBetween(softness, root ** 2);
    const step = (measure - leakingMeasure(softness, root)) / steepness;
    root += step;
    if (Math.abs(step) <= SETTLED * root) return root;
  }
  throw new RangeError(`rootAtMeasure: no root for ${measure} within ${MOST_ROUNDS} rounds`);
}
