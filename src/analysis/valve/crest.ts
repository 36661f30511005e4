import { gathered, type Measured } from "../../quantity/measured.ts";
import { averaged, weighedWays } from "../../quantity/weighed-ways.ts";
import { linearEstimator } from "../../statistics/linear-estimate.ts";
import { vectorOf } from "../../statistics/vector.ts";
import type { Sources } from "../sources.ts";
import { sharedSource } from "../state/instruments.ts";
import { type Read, STRAYS } from "./valve-course.ts";
import { MARK_DOUBT } from "./valve-usual.ts";

/** Readings to either side of the highest are of one crest until one stands this many reading errors below it (our choice). */
const BELOW = 3 * Math.SQRT2;
/** A valve that blows holds the pressure nearly level: a stray that is less than any beside a moment. */
const LEVEL = { sd: 0.003, likely: 1 };
const MOST_READINGS = 40;
const BETWEEN = "pressure between readings";
/**
 * A valve that nobody wrote of stopped a rise where nothing else did, from such a part of working pressure on: the pressure
 * stood higher as it lifted than where it blew and was read, by so much (our estimate: up to what usually lies between).
 */
const BLOWN = { from: 0.85, above: 0.03, u: 0.03 };

export interface Crest {
  readings: readonly Read[];
  /** whether a rise up to it was read */
  risen: boolean;
  /** whether it went on for longer than the pace up to it would have let it */
  level: boolean;
}

/** The highest reading, and those beside it that may have been as high. */
export function crestAbout(all: readonly Read[], top: Read, uReadingBar: number): Crest {
  const place = all.indexOf(top);
  const low = ({ barG }: Read) => barG < top.barG - BELOW * uReadingBar;
  const before = all.findLastIndex((read, i) => i < place && low(read));
  const after = all.findIndex((read, i) => i > place && low(read));
  const [foot, first] = [all[before], all[before + 1] as Read];
  const last = all[(after < 0 ? all.length : after) - 1] as Read;
  const pace = foot === undefined ? 0 : (first.barG - foot.barG) / (first.atS - foot.atS);
  return {
    readings: all.slice(
      Math.max(before + 1, place - MOST_READINGS),
      Math.min(after < 0 ? all.length : after, place + MOST_READINGS),
    ),
    risen: foot !== undefined,
    level: pace * (last.atS - first.atS) > 2 * BELOW * uReadingBar,
  };
}

/**
 * Pressure at the highest reading of a crest, which is high by chance too, by those beside it: a valve that blows holds the
 * pressure nearly level. It strays between them (Brownian).
 */
export function levelOfCrest(from: Sources, { readings }: Crest, top: Read): Measured {
  const { errors, locomotive } = from;
  const working = locomotive.workingPressureBarG;
  const n = readings.length;
  const unit = new Float64Array(n * n);
  readings.forEach((a, i) => {
    for (let j = 0; j <= i; j++) {
      const [sinceA, sinceB] = [a.atS - top.atS, (readings[j] as Read).atS - top.atS];
      if (sinceA > 0 === sinceB > 0) unit[i * n + j] = Math.min(Math.abs(sinceA), Math.abs(sinceB));
    }
  });
  const causes = [MARK_DOUBT * working, errors.pressureBiasBar].map((bar) => vectorOf(readings, () => bar));
  const ways = weighedWays(
    [LEVEL, ...STRAYS.shut],
    ({ sd }) =>
      linearEstimator({
        y: vectorOf(readings, ({ barG }) => barG - working),
        noise: vectorOf(readings, () => errors.pressureReadingBar ** 2),
        causes,
        wander: vectorOf(unit, (value) => ((sd * working) ** 2 / 60) * value),
      }),
    ({ likely }) => likely,
  );
  const told = averaged(ways, {
    ofWanted: [MARK_DOUBT * working, 0],
    unit: "bar",
    parts: [
      { name: "few readings" },
      { name: "bias of the pressure dial", source: sharedSource.dial(locomotive) },
    ],
    names: { readings: "pressure readings", wander: BETWEEN, ways: BETWEEN },
  });
  return { unit: "bar", value: working + told.value, parts: told.parts };
}

/** How high the pressure stood where a valve that nobody wrote of had stopped the rise to a crest. */
export function blownUnseen({ locomotive }: Sources, { risen }: Crest, read: Measured): Measured {
  const working = locomotive.workingPressureBarG;
  if (!risen || read.value < BLOWN.from * working) return read;
  return {
    unit: "bar",
    value: read.value + BLOWN.above * working,
    parts: gathered([...read.parts, { name: BETWEEN, u: BLOWN.u * working }]),
  };
}
