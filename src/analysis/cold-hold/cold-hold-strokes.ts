import { absent, type Figure, type Measured, type Part } from "../../quantity/measured.ts";
import { rangeOf } from "../../quantity/weighed-ways.ts";
import type { Sources } from "../sources.ts";
import { PA_PER_BAR } from "../state/circumstances.ts";
import { sharedSource } from "../state/instruments.ts";
import { STROKE_NOT_KNOWN } from "../water/held-cold-water.ts";
import { softnessByShares } from "./air-share.ts";
import { firstRaising } from "./first-raising.ts";
import { pumpedIn } from "./pumped-in.ts";
import { airGives, type Softness } from "./softness.ts";

/** A scale of a pump whose uncertainty was not said (common practice: a measure of ten strokes). */
const PUMP_RELATIVE = 0.03;

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
  const { locomotive, errors, around } = from;
  const putIn = pumpedIn(from);
  if (putIn.some(({ ml }) => Number.isNaN(ml))) return untold(STROKE_NOT_KNOWN);
  const { pumped, fromNothingMl } = firstRaising(from, putIn, paceBarPerS);
  const [lowest, highest] = [pumped[0], pumped.at(-1)];
  if (lowest === undefined || highest === undefined) return untold(NOT_COUNTED);
  const ends = { fromBar: highest.barG, toBar: highest.barG };
  const atmosphereBar = around.atmospherePa / PA_PER_BAR;
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

  if (!(highest.ml > lowest.ml)) return untold(NO_SENSE);
  const { softness, between } = softnessByShares(from, pumped, lowest, highest);
  return {
    softness,
    complianceAt: (hold) => {
      const { fromBar, toBar } = hold ?? ends;
      const { value, parts, lumps } = between(fromBar, toBar);
      const figure = withScale(from, value, parts);
      return { ...figure, range95: rangeOf(lumps, figure.parts.at(-1)?.u ?? 0) };
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
