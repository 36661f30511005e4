import type { Part } from "../../quantity/measured.ts";
import { averaged, weighedWays } from "../../quantity/weighed-ways.ts";
import { linearEstimator } from "../../statistics/linear-estimate.ts";
import { vectorOf } from "../../statistics/vector.ts";
import type { Second } from "../pressure/logged-seconds.ts";
import type { PressureReading } from "../pressure/pressure-points.ts";
import type { Mark, Moment } from "./valve-moment.ts";
import { FURTHEST_S, stretchAt } from "./valve-stretch.ts";
import { U_MOMENT_S } from "./valve-usual.ts";

/** The moment is tried every so many s. */
const STEP_S = 0.5;
/**
 * Parts of working pressure (our choice): what the pressure at the moment is in doubt by beforehand, how fast it goes a
 * second and bends a second squared on either side, and what a second's mean stands off such a bend.
 */
const DOUBT = { bar: 0.3, perS: 0.012, perS2: 0.0005, off: 0.0015 };
/**
 * How the pressure goes in the mean of our invented engines before and after, as such parts: without it the corner that
 * is lost in the samples' scatter would be taken for none, and a lift as too low.
 */
const USUAL: Record<Mark, { beforePerS: number; afterPerS: number; afterPerS2: number }> = {
  lift: { beforePerS: 0.005, afterPerS: -0.011, afterPerS2: 0.0004 },
  reseat: { beforePerS: -0.004, afterPerS: -0.004, afterPerS2: 0 },
  top: { beforePerS: 0, afterPerS: 0, afterPerS2: 0 },
};

/**
 * A valve that shuts bends the pressure up. Where it does not do so by so many of the bend's errors, something else brought
 * it down (cold feed, the regulator opened), and the corner, if there is one, is that and not the valve's.
 */
const BENDS_UP = 2;
/** Nor is it the valve's where the pressure goes on falling faster than so many parts of working pressure a second (our choice). */
const FALLS_ON = 0.002;

/** Pressure at one moment, without the bias that all samples share. */
export interface Corner {
  value: number;
  u: number;
  parts: Part[];
}

/**
 * Pressure at a moment from a logger's samples: bent to either side of it, with a corner there, the moment anywhere about
 * where it was written. Null where too few samples stand by it (`stretchAt`), or the bend is none of the valve's.
 */
export function cornerAt(
  logged: readonly PressureReading[],
  moment: Moment,
  othersS: readonly number[],
  plungesS: readonly number[],
  working: number,
): Corner | null {
  const uSample = Math.max(...logged.map(({ uBar }) => uBar));
  const uOf = ({ samples }: Second) => Math.hypot(uSample / Math.sqrt(samples), DOUBT.off * working);
  const stretch = stretchAt(logged, moment, othersS, plungesS, uOf);
  if (stretch === null) return null;
  const { seconds } = stretch;
  const mean = seconds.reduce((sum, { barG }) => sum + barG, 0) / seconds.length;
  const least = Math.max(-FURTHEST_S, stretch.fromS + stretch.marginS);
  const most = Math.min(FURTHEST_S, stretch.toS - stretch.marginS);
  const offs = Array.from({ length: Math.floor((most - least) / STEP_S) + 1 }, (_, i) => least + i * STEP_S);
  const { beforePerS, afterPerS, afterPerS2 } = USUAL[stretch.usual];
  const usualGone = (sinceS: number) =>
    working * (sinceS < 0 ? beforePerS * sinceS : afterPerS * sinceS + afterPerS2 * sinceS ** 2);
  const noise = vectorOf(seconds, (second) => uOf(second) ** 2);
  const ways = weighedWays(
    offs,
    (offS) => {
      const column = (doubt: number, of: (sinceS: number) => number) =>
        vectorOf(seconds, ({ atS }) => working * doubt * of(atS - offS));
      return linearEstimator({
        y: vectorOf(seconds, ({ atS, barG }) => barG - mean - usualGone(atS - offS)),
        noise,
        causes: [
          column(DOUBT.bar, () => 1),
          column(DOUBT.perS, (s) => Math.min(s, 0)),
          column(DOUBT.perS, (s) => Math.max(s, 0)),
          column(DOUBT.perS2, (s) => Math.min(s, 0) ** 2),
          column(DOUBT.perS2, (s) => Math.max(s, 0) ** 2),
        ],
      });
    },
    (offS) => Math.exp(-0.5 * (offS / U_MOMENT_S) ** 2),
  );
  const few = { name: "few readings" };
  const told = (ofWanted: readonly number[]): Corner => {
    const { value, parts } = averaged(ways, {
      ofWanted,
      unit: "bar",
      parts: [few, few, few, few, few],
      names: {
        readings: "pressure readings",
        wander: "pressure between readings",
        ways: "moment of the valve",
      },
    });
    return { value, u: Math.hypot(...parts.map(({ u }) => u)), parts };
  };
  if (moment.mark === "reseat") {
    const bend = told([0, -DOUBT.perS * working, DOUBT.perS * working, 0, 0]);
    const after = told([0, 0, DOUBT.perS * working, 0, 0]);
    const [bends, fallsOn] = [
      bend.value + (afterPerS - beforePerS) * working,
      after.value + afterPerS * working,
    ];
    if (bends < BENDS_UP * bend.u || fallsOn < -FALLS_ON * working) return null;
  }
  const pressure = told([DOUBT.bar * working, 0, 0, 0, 0]);
  return { ...pressure, value: mean + pressure.value };
}
