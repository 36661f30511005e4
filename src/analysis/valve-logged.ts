import { gathered, type Measured, type Part } from "../quantity/measured.ts";
import { linearEstimator } from "../statistics/linear-estimate.ts";
import { positivePart } from "../statistics/positive-part.ts";
import { vectorOf } from "../statistics/vector.ts";
import { sharedSource } from "./instruments.ts";
import { bySeconds, oneRiseAndFall, type Second } from "./logged-seconds.ts";
import type { PressureReading } from "./pressure-points.ts";
import type { Sources } from "./sources.ts";
import type { Mark, Moment } from "./valve-moment.ts";
import { U_MOMENT_S } from "./valve-usual.ts";
import { averaged, weighedWays } from "./weighed-ways.ts";

/** Samples so near a moment tell of it, s; and so many seconds with samples to either side make them close. */
const NEAR_S = 15;
const LEAST_SECONDS = 5;
/** About a top so few are enough: it goes up and down at once where a valve pops and shuts within seconds. */
const LEAST_BY_TOP = 3;
/** The moment may have been so far from where it was written, in errors of its writing, and is tried every so many s. */
const FURTHEST = 3;
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

/**
 * Pressure at moments of one kind from a logger's own samples, which show how it went and ask for no form of it: bent to
 * either side of the moment, with a corner there, the moment anywhere about where it was written. Where there is a corner
 * the samples say when it was; where there is none, its doubt stays. Null where no moment has close samples
 * on both sides of it and, for a reseat, a bend that is the valve's; those that have speak for all.
 */
export function loggedAt(from: Sources, wanted: readonly Moment[], all: readonly Moment[]): Measured | null {
  const logged = from.pressures.all.filter(({ by }) => by === "logger");
  const told = wanted.flatMap((moment) => atOne(from, logged, moment, all) ?? []);
  if (told.length === 0) return null;
  const { errors, locomotive } = from;
  const weights = told.map(({ u }) => 1 / u ** 2);
  const total = weights.reduce((a, b) => a + b, 0);
  const value = told.reduce((sum, one, i) => sum + (one.value * (weights[i] as number)) / total, 0);
  const apart = told.reduce((sum, one) => sum + ((one.value - value) / one.u) ** 2, 0);
  /** the moments' own pressures may lie further apart than they are in doubt (Birge's ratio) */
  const wider = Math.sqrt(Math.max(1, apart / Math.max(1, told.length - 1)));
  const own = told.flatMap(({ parts }, i) =>
    parts.map((part): Part => ({ ...part, u: (wider * part.u * (weights[i] as number)) / total })),
  );
  const squares = new Map<string, number>();
  for (const { name, u } of own) squares.set(name, (squares.get(name) ?? 0) + u ** 2);
  return {
    unit: "bar",
    value,
    parts: [
      ...[...squares].map(([name, square]): Part => ({ name, u: Math.sqrt(square) })),
      {
        name: "bias of the pressure dial",
        source: sharedSource.dial(locomotive),
        u: errors.pressureBiasBar,
      },
    ],
  };
}

/** The greater of a lift and of what the logger showed where it stood highest; both share the bias. */
export function greaterOf(lift: Measured, top: Measured): Measured {
  const own = ({ parts }: Measured) => parts.filter(({ source }) => source === undefined);
  const u = Math.hypot(...[...own(lift), ...own(top)].map((part) => part.u));
  const { mean, share, uBent } = positivePart(top.value - lift.value, u);
  const scaledBy = (figure: Measured, by: number) => own(figure).map((part) => ({ ...part, u: by * part.u }));
  return {
    unit: "bar",
    value: lift.value + mean,
    parts: gathered([
      ...scaledBy(lift, 1 - share),
      ...scaledBy(top, share),
      ...lift.parts.filter(({ source }) => source !== undefined),
      { name: "pressure between readings", u: uBent },
    ]),
  };
}

function atOne(
  from: Sources,
  logged: readonly PressureReading[],
  moment: Moment,
  all: readonly Moment[],
): { value: number; u: number; parts: Part[] } | null {
  const working = from.locomotive.workingPressureBarG;
  const others = all.map(({ atS }) => atS - moment.atS);
  const uSample = Math.max(...logged.map(({ uBar }) => uBar));
  const uOf = ({ samples }: Second) => Math.hypot(uSample / Math.sqrt(samples), DOUBT.off * working);
  const marksFromS = Math.max(-NEAR_S, ...others.filter((s) => s < 0).map((s) => s + U_MOMENT_S));
  const marksToS = Math.min(NEAR_S, ...others.filter((s) => s > 0).map((s) => s - U_MOMENT_S));
  const between = bySeconds(logged, moment.atS, marksFromS, marksToS);
  const top = moment.mark === "top";
  const seconds = top ? oneRiseAndFall(between, FURTHEST * U_MOMENT_S, uOf) : between;
  const fromS = Math.max(marksFromS, top ? (seconds[0]?.atS ?? 0) : marksFromS);
  const toS = Math.min(marksToS, top ? (seconds.at(-1)?.atS ?? 0) : marksToS);
  const before = seconds.filter(({ atS }) => atS <= 0).length;
  const fewest = top ? LEAST_BY_TOP : LEAST_SECONDS;
  if (before < fewest || seconds.length - before < fewest) return null;
  const usual = seconds.reduce((sum, { barG }) => sum + barG, 0) / seconds.length;
  const least = Math.max(-FURTHEST * U_MOMENT_S, fromS + 2);
  const most = Math.min(FURTHEST * U_MOMENT_S, toS - 2);
  const offs = Array.from({ length: Math.floor((most - least) / STEP_S) + 1 }, (_, i) => least + i * STEP_S);
  const { beforePerS, afterPerS, afterPerS2 } = USUAL[moment.mark];
  const usualGone = (sinceS: number) =>
    working * (sinceS < 0 ? beforePerS * sinceS : afterPerS * sinceS + afterPerS2 * sinceS ** 2);
  const noise = vectorOf(seconds, (second) => uOf(second) ** 2);
  const ways = weighedWays(
    offs,
    (offS) => {
      const column = (doubt: number, of: (sinceS: number) => number) =>
        vectorOf(seconds, ({ atS }) => working * doubt * of(atS - offS));
      return linearEstimator({
        y: vectorOf(seconds, ({ atS, barG }) => barG - usual - usualGone(atS - offS)),
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
  const told = (ofWanted: readonly number[]) => {
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
  return { ...pressure, value: usual + pressure.value };
}
