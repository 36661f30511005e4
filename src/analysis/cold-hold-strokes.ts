import { absent, type Figure } from "../quantity/measured.ts";
import { linearEstimator } from "../statistics/linear-estimate.ts";
import { PA_PER_BAR } from "./circumstances.ts";
import { sharedSource } from "./instruments.ts";
import { NONE_BAR } from "./pressure-course.ts";
import type { Sources } from "./sources.ts";
import { averaged } from "./weighed-ways.ts";

/** Air that may be in a boiler filled to the brim, as a part of its volume: any so much smaller or larger (our choice). */
const AIR_DOUBT = 0.03;
const LEAST_SLOPE = 0.01;
/** Rounds in which the slope settles by which a pressure's error is weighed. */
const ROUNDS = 3;
/** A scale of a pump whose uncertainty was not said (common practice: a measure of ten strokes). */
const PUMP_RELATIVE = 0.03;
const NAMES = { readings: "pressure readings", wander: "pressure readings", ways: "pressure readings" };

interface Pumped {
  ml: number;
  barG: number;
}

/**
 * Compliance from pump strokes and the pressures they reached, with
 *
 *   pumped = start + compliance x p + air x (1 - p_atmosphere/p absolute)
 *
 * What went in before there was pressure is the start. Air shrinks by Boyle's law, most of it in the first strokes. What
 * air is left at the hold still gives, and counts there.
 * @param holdBar pressure of the hold; the highest pumped to where there was none
 */
export function complianceOf(from: Sources, holdBar: number | null): Figure {
  const { locomotive, errors, around, geometry } = from;
  const pump = locomotive.handPump;
  const pumped = pumpedOf(from);
  if (pump === undefined) return absent("the millilitres of a stroke of the hand pump are not known");
  if (pumped.length < 2) return absent("fewer than two pressures were reached by counted strokes");
  const [lowest, highest] = [pumped[0], pumped.at(-1)];
  if (lowest === undefined || highest === undefined || !(highest.barG > lowest.barG))
    return absent("the strokes did not raise the pressure");
  const atBar = holdBar ?? highest.barG;
  const atmosphereBar = around.atmospherePa / PA_PER_BAR;
  const totalMl = geometry.totalM3 * 1e6;
  const squeezed = (barG: number) => 1 - atmosphereBar / (atmosphereBar + barG);
  const airGives = (barG: number) => atmosphereBar / (atmosphereBar + barG) ** 2;

  const rough = (highest.ml - lowest.ml) / (highest.barG - lowest.barG);
  const column = (value: (point: Pumped) => number) => Float64Array.from(pumped, value);
  const [doubt, uAir] = [3 * rough, AIR_DOUBT * totalMl];
  const parts = [
    { name: "few readings" },
    { name: "few readings" },
    { name: "air in the boiler" },
    { name: "bias of the pressure dial", source: sharedSource.dial(locomotive) },
  ];
  const fit = (steady: number, airMl: number, withAir: boolean) => {
    const slope = (barG: number) =>
      Math.max(steady, LEAST_SLOPE * rough) + Math.max(airMl, 0) * airGives(barG);
    const estimator = linearEstimator({
      y: column(({ ml }) => ml - lowest.ml),
      noise: column(({ barG }) => (slope(barG) * errors.pressureReadingBar) ** 2),
      causes: [
        column(() => 100 * (highest.ml - lowest.ml)),
        column(({ barG }) => doubt * barG),
        column(({ barG }) => (withAir ? uAir * squeezed(barG) : 0)),
        column(({ barG }) => slope(barG) * errors.pressureBiasBar),
      ],
    });
    const of = (steadyShare: number, airShare: number) =>
      averaged([{ weight: 1, estimator }], {
        ofWanted: [0, steadyShare * doubt, withAir ? airShare * uAir : 0, 0],
        unit: "ml/bar",
        parts,
        names: NAMES,
      });
    return { steady: of(1, 0).value, airMl: of(0, 1).value, atHold: of(1, airGives(atBar)) };
  };
  let found = fit(rough, 0, true);
  for (let round = 0; round < ROUNDS; round++) found = fit(found.steady, found.airMl, true);
  // less than no air there cannot be
  if (found.airMl < 0) for (let round = 0; round < ROUNDS; round++) found = fit(found.steady, 0, false);
  const { value } = found.atHold;
  if (!(value > 0)) return absent("the strokes and pressures do not make sense together: look at both again");
  const scale = pump.uMlPerStroke === undefined ? PUMP_RELATIVE : pump.uMlPerStroke / pump.mlPerStroke;
  return {
    value,
    unit: "ml/bar",
    parts: [
      ...found.atHold.parts,
      { name: "hand pump's ml a stroke", u: scale * value, source: sharedSource.handPump(locomotive) },
    ].filter((part) => part.u !== 0),
  };
}

/** Pumped in so far at each pressure on the way up, without the strokes before there was any. */
function pumpedOf(from: Sources): Pumped[] {
  const mlPerStroke = from.locomotive.handPump?.mlPerStroke ?? 0;
  let ml = 0;
  let highestBar = Number.NEGATIVE_INFINITY;
  const points: Pumped[] = [];
  for (const { count, barG } of from.timeline.of("strokes")) {
    ml += count * mlPerStroke;
    // pumping up again after a hold also puts back what leaked, so it must go higher to tell
    if (barG > NONE_BAR && barG > highestBar) points.push({ ml, barG });
    highestBar = Math.max(highestBar, barG);
  }
  return points;
}
