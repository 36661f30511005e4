import { absent, type Figure, type Measured, type Part } from "../../quantity/measured.ts";
import { averaged } from "../../quantity/weighed-ways.ts";
import { linearEstimator } from "../../statistics/linear-estimate.ts";
import type { Sources } from "../sources.ts";
import { PA_PER_BAR } from "../state/circumstances.ts";
import { sharedSource } from "../state/instruments.ts";
import { firstRaising, type Pumped } from "./first-raising.ts";
import { pumpedIn } from "./pumped-in.ts";
import { airGives, type Softness } from "./softness.ts";

/** Air that may be in a boiler filled to the brim, as a part of its volume: any so much smaller or larger (our choice). */
const AIR_DOUBT = 0.03;
const LEAST_SLOPE = 0.01;
/** Rounds in which the slope settles by which a pressure's error is weighed. */
const ROUNDS = 3;
/** A scale of a pump whose uncertainty was not said (common practice: a measure of ten strokes). */
const PUMP_RELATIVE = 0.03;
const NAMES = { readings: "pressure readings", wander: "pressure readings", ways: "pressure readings" };

/** What the strokes of the hand pump tell. */
export interface PumpedUp {
  /** null where they do not tell it */
  softness: Softness | null;
  /**
   * ml for a bar more over all of a fall between two gauge pressures
   * @param hold the highest pumped to, where she was not held
   */
  complianceAt(hold: { fromBar: number; toBar: number } | null): Figure;
}

const untold = (why: string): PumpedUp => ({ softness: null, complianceAt: () => absent(why) });

/**
 * Compliance from pump strokes and the pressures they reached, with
 *
 *   pumped = start + compliance x p + air x (1 - p_atmosphere/p absolute)
 *
 * What went in before there was pressure is the start. Air shrinks by Boyle's law, most of it in the first strokes. What
 * air is left at the hold still gives, and counts there.
 * @param paceBarPerS at which the pressure fell where she was held; 0 where that is not known
 */
export function pumpedUp(from: Sources, paceBarPerS: number): PumpedUp {
  const { locomotive, errors, around, geometry } = from;
  const putIn = pumpedIn(from);
  if (putIn.some(({ ml }) => Number.isNaN(ml)))
    return untold("the millilitres of a stroke of the hand pump are not known");
  const { pumped, fromNothingMl } = firstRaising(from, putIn, paceBarPerS);
  const [lowest, highest] = [pumped[0], pumped.at(-1)];
  if (lowest === undefined || highest === undefined) return untold(NOT_COUNTED);
  const ends = { fromBar: highest.barG, toBar: highest.barG };
  const atmosphereBar = around.atmospherePa / PA_PER_BAR;
  const totalMl = geometry.totalM3 * 1e6;
  const squeezed = (barG: number) => 1 - atmosphereBar / (atmosphereBar + barG);
  if (pumped.length === 1) {
    if (fromNothingMl === null) return untold(ONE_PRESSURE);
    if (!(highest.ml > fromNothingMl)) return untold(NOT_COUNTED);
    // of all that went in from 0 bar, none to all may have squeezed air
    const ml = highest.ml - fromNothingMl;
    const [steady, airMl] = [ml / highest.barG, ml / squeezed(highest.barG)];
    return {
      softness: { steadyMlPerBar: steady / 2, airMl: airMl / 2, atmosphereBar },
      complianceAt: (hold) => {
        const { fromBar, toBar } = hold ?? ends;
        const byAir = airMl * airGives(atmosphereBar, fromBar, toBar);
        const value = (steady + byAir) / 2;
        return withScale(from, value, [
          { name: "air in the boiler", u: Math.abs(steady - byAir) / Math.sqrt(12) },
          { name: "pressure readings", u: (value * Math.SQRT2 * errors.pressureReadingBar) / highest.barG },
          {
            name: "bias of the pressure dial",
            source: sharedSource.dial(locomotive),
            u: (-value * errors.pressureBiasBar) / highest.barG,
          },
        ]);
      },
    };
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
      Math.max(steady, LEAST_SLOPE * rough) + Math.max(airMl, 0) * airGives(atmosphereBar, barG);
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
    return { steady: of(1, 0).value, airMl: of(0, 1).value, of };
  };
  let found = fit(rough, 0, true);
  for (let round = 0; round < ROUNDS; round++) found = fit(found.steady, found.airMl, true);
  // less than no air there cannot be
  if (found.airMl < 0) for (let round = 0; round < ROUNDS; round++) found = fit(found.steady, 0, false);
  const { steady, airMl, of } = found;
  return {
    softness: {
      steadyMlPerBar: Math.max(steady, LEAST_SLOPE * rough),
      airMl: Math.max(airMl, 0),
      atmosphereBar,
    },
    complianceAt: (hold) => {
      const { fromBar, toBar } = hold ?? ends;
      const { value, parts } = of(1, airGives(atmosphereBar, fromBar, toBar));
      return value > 0 ? withScale(from, value, parts) : absent(NO_SENSE);
    },
  };
}

const NO_SENSE = "the strokes and pressures do not make sense together: look at both again";
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
