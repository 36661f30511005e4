import { absent, type Figure, type Measured, type Part } from "../../quantity/measured.ts";
import { averaged } from "../../quantity/weighed-ways.ts";
import { linearEstimator } from "../../statistics/linear-estimate.ts";
import { NONE_BAR } from "../pressure/pressure-course.ts";
import type { Sources } from "../sources.ts";
import { PA_PER_BAR } from "../state/circumstances.ts";
import { heldCold } from "../state/held-cold.ts";
import { sharedSource } from "../state/instruments.ts";

/** Air that may be in a boiler filled to the brim, as a part of its volume: any so much smaller or larger (our choice). */
const AIR_DOUBT = 0.03;
const LEAST_SLOPE = 0.01;
/** Rounds in which the slope settles by which a pressure's error is weighed. */
const ROUNDS = 3;
/** A scale of a pump whose uncertainty was not said (common practice: a measure of ten strokes). */
const PUMP_RELATIVE = 0.03;
const NAMES = { readings: "pressure readings", wander: "pressure readings", ways: "pressure readings" };

/** Pumped in so far, and the pressure that it reached. */
interface Pumped {
  ml: number;
  barG: number;
}

/** Water put in by the hand pump in a cold hold; null where no pressure was read before the next. */
export interface PumpedIn {
  atS: number;
  ml: number;
  barG: number | null;
}

/** Strokes with the pressure they reached; and what was written as feed by the hand pump, with the pressure read next. */
export function pumpedIn({ timeline, steaming, locomotive }: Sources): PumpedIn[] {
  const strokes = timeline.of("strokes").map(
    ({ atS, count, barG }): PumpedIn => ({
      atS,
      ml: count * (locomotive.handPump?.mlPerStroke ?? Number.NaN),
      barG,
    }),
  );
  const fed = heldCold(steaming, timeline) ? timeline.of("feed").filter(({ by }) => by === "hand-pump") : [];
  const all = [...strokes, ...fed.map(({ atS, ml }): PumpedIn => ({ atS, ml, barG: null }))];
  all.sort((a, b) => a.atS - b.atS);
  return all.map((one, i) => {
    if (one.barG !== null) return one;
    const read = timeline.of("pressure").find(({ atS }) => atS >= one.atS);
    const nextS = all[i + 1]?.atS ?? Number.POSITIVE_INFINITY;
    return { ...one, barG: read !== undefined && read.atS <= nextS ? read.barG : null };
  });
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
  const putIn = pumpedIn(from);
  if (putIn.some(({ ml }) => Number.isNaN(ml)))
    return absent("the millilitres of a stroke of the hand pump are not known");
  const { pumped, fromNothingMl } = onTheWayUp(from, putIn);
  const [lowest, highest] = [pumped[0], pumped.at(-1)];
  if (lowest === undefined || highest === undefined) return absent(NOT_COUNTED);
  const atBar = holdBar ?? highest.barG;
  const atmosphereBar = around.atmospherePa / PA_PER_BAR;
  const totalMl = geometry.totalM3 * 1e6;
  const squeezed = (barG: number) => 1 - atmosphereBar / (atmosphereBar + barG);
  const airGives = (barG: number) => atmosphereBar / (atmosphereBar + barG) ** 2;

  if (pumped.length === 1) {
    if (fromNothingMl === null) return absent(ONE_PRESSURE);
    if (!(highest.ml > fromNothingMl)) return absent(NOT_COUNTED);
    // of all that went in from 0 bar, none to all may have squeezed air
    const [most, least] = [
      (highest.ml - fromNothingMl) / highest.barG,
      ((highest.ml - fromNothingMl) / squeezed(highest.barG)) * airGives(atBar),
    ];
    const value = (most + least) / 2;
    return withScale(from, value, [
      { name: "air in the boiler", u: Math.abs(most - least) / Math.sqrt(12) },
      { name: "pressure readings", u: (value * Math.SQRT2 * errors.pressureReadingBar) / highest.barG },
      {
        name: "bias of the pressure dial",
        source: sharedSource.dial(locomotive),
        u: (-value * errors.pressureBiasBar) / highest.barG,
      },
    ]);
  }

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
  return withScale(from, value, found.atHold.parts);
}

const NOT_COUNTED =
  "no pressure was reached by counted strokes: write down the strokes of the hand pump and the pressure that they reached";
const ONE_PRESSURE =
  "one pressure alone was reached by counted strokes: write down 0 bar when she is full, or a pressure on the way up";

/** With the scale of the pump; without one, of the measure by which its feed was written down. */
function withScale({ locomotive, errors }: Sources, value: number, parts: readonly Part[]): Measured {
  const pump = locomotive.handPump;
  const scale =
    pump === undefined
      ? {
          name: "scale of the feed measure",
          source: sharedSource.feedScale(locomotive),
          u: errors.feedRelative * value,
        }
      : {
          name: "hand pump's ml a stroke",
          source: sharedSource.handPump(locomotive),
          u: ((pump.uMlPerStroke ?? PUMP_RELATIVE * pump.mlPerStroke) / pump.mlPerStroke) * value,
        };
  return { value, unit: "ml/bar", parts: [...parts, scale].filter((part) => part.u !== 0) };
}

/**
 * Pumped in so far at each pressure on the way up, without what went in before there was pressure; and how much that was,
 * where 0 bar was read before the first of them.
 */
function onTheWayUp({ timeline }: Sources, putIn: readonly PumpedIn[]) {
  let ml = 0;
  let highestBar = Number.NEGATIVE_INFINITY;
  let fromNothingMl: number | null = null;
  const pumped: Pumped[] = [];
  let beforeS = Number.NEGATIVE_INFINITY;
  for (const { atS, ml: more, barG } of putIn) {
    const read = timeline.of("pressure").findLast((one) => one.atS >= beforeS && one.atS <= atS);
    if (pumped.length === 0 && read !== undefined && read.barG <= NONE_BAR) fromNothingMl = ml;
    beforeS = atS;
    ml += more;
    if (barG === null) continue;
    // pumping up again after a hold also puts back what leaked, so it must go higher to tell
    if (barG > NONE_BAR && barG > highestBar) pumped.push({ ml, barG });
    else if (pumped.length === 0) fromNothingMl = ml;
    highestBar = Math.max(highestBar, barG);
  }
  return { pumped, fromNothingMl };
}
