import { overflowM3 } from "../../boiler/thermal-expansion.ts";
import {
  absent,
  combined,
  type Figure,
  interval,
  type Measured,
  measured,
  type Part,
} from "../../quantity/measured.ts";
import { product } from "../../quantity/product-and-quotient.ts";
import { waterHoleM } from "../../steam/leak-flow.ts";
import { holeMm } from "../leaks/leaks.ts";
import type { Warning } from "../report-schema.ts";
import type { Sources } from "../sources.ts";
import { asWater, ICE_POINT_K, PA_PER_BAR, U_FEED_AS_AIR_K } from "../state/circumstances.ts";
import { sharedSource } from "../state/instruments.ts";
import { densityGPerMl } from "../water/feed-course.ts";
import { pumpedUp } from "./cold-hold-strokes.ts";
import { type Hold, holdOf } from "./hold.ts";
import { longestRest } from "./longest-rest.ts";
import { readCold, readTwice, temperatureAt } from "./water-temperature.ts";

/** When and at what pressure she was held, its ends along the line through the readings. */
export interface Held {
  fromS: number;
  toS: number;
  meanBar: number;
  fromBar: number;
  toBar: number;
  /** the water's temperature at both ends; null where it was not read twice */
  waterC: { from: number; to: number } | null;
}

export interface ColdHold {
  /** ml for a bar more, at the pressure of the hold */
  compliance: Figure;
  /** ml/min at working pressure, as all leaks are reported */
  leak: Figure;
  /** mm, of the leak at the pressure of the hold */
  equivalentHole: Figure;
  /** the time over which the pressure was read with the pump at rest; null where there is none */
  held: Held | null;
  /** whether temperature alone could have made the pressure fall as it did, as far as is known */
  temperatureCouldExplain: boolean;
}

/**
 * Without two of them the water may have gone towards the air by anything between nothing and as much as in a small bare
 * boiler, which takes so long to come near it, s (our estimate): towards air that may have been warmer or colder about her
 * by so many K than what was written of air and water tells, half a degree in half an hour (our estimate).
 */
const SETTLES_S = 1500;
const U_APART_K = 1.25;
/** The expansion of water and metal together. */
const EXPANSION_RELATIVE = 0.03;

const isColdHold = ({ timeline, steaming }: Sources): boolean =>
  timeline.of("strokes").length > 0 || steaming.purpose === "cold-hold";

/** A hydraulic hold; null where no stroke was counted and the steaming was not one. */
export function coldHoldOf(from: Sources): ColdHold | null {
  if (!isColdHold(from)) return null;
  const rest = longestRest(from);
  if (rest === null) {
    const compliance = pumpedUp(from, 0).complianceAt(null);
    const why = absent("fewer than two pressures were read with the pump at rest and pressure on");
    // no fall was read that anything could explain
    return { compliance, leak: why, equivalentHole: why, held: null, temperatureCouldExplain: false };
  }
  const alike = holdOf(from, rest, null);
  const pumped = pumpedUp(from, alike.fall.value / (alike.toS - alike.fromS));
  const hold = pumped.softness === null ? alike : holdOf(from, rest, pumped.softness);
  const compliance = pumped.complianceAt(hold);
  const held = heldOf(from, hold);
  const drift = driftOf(from, hold);
  if (compliance.value === null) {
    // how much a bar takes is not known, so any cooling that may have been could make any fall
    const temperatureCouldExplain = hold.fall.value > 0 && interval(drift)[0] < 0;
    return { compliance, leak: compliance, equivalentHole: compliance, held, temperatureCouldExplain };
  }
  const leak = leakOf(compliance, hold.fall, drift, (hold.toS - hold.fromS) / 60);
  // nothing leaks inwards
  if (interval(leak)[1] < 0) {
    const why = absent(ROSE);
    return { compliance, leak: why, equivalentHole: why, held, temperatureCouldExplain: false };
  }
  return {
    compliance,
    leak: atWorkingPressure(from, leak, hold.leakingBar),
    equivalentHole: holeOf(from, leak, hold.leakingBar),
    held,
    temperatureCouldExplain: interval(leak)[0] <= 0 && drifted(hold.fall, compliance, drift),
  };
}

/** By what the pressure fell and what temperature drove out, their ranges to either side in quadrature. */
function leakOf(compliance: Measured, fall: Measured, driftMl: Measured, minutes: number): Measured {
  const lost = product(compliance, fall, "ml");
  const even = combined((lost.value + driftMl.value) / minutes, "ml/min", [
    [lost, 1 / minutes],
    [driftMl, 1 / minutes],
  ]);
  if (lost.range95 === undefined) return even;
  const [low, high] = interval(lost);
  const half = (interval(driftMl)[1] - interval(driftMl)[0]) / 2;
  const away = (end: number) => Math.hypot(end - lost.value, half) / minutes;
  return { ...even, range95: [even.value - away(low), even.value + away(high)] };
}

/**
 * As much as the same hole would let out at working pressure: cold water leaks as the root of the gauge pressure (Torricelli).
 * @param leakingBar at which it leaks as it did in the mean over the hold
 */
function atWorkingPressure({ locomotive, errors }: Sources, leak: Measured, leakingBar: number): Measured {
  const by = Math.sqrt(locomotive.workingPressureBarG / leakingBar);
  // a dial that stands too high makes the carriage too short
  const u = (-by * errors.pressureBiasBar) / (2 * leakingBar);
  const part: Part = { name: "bias of the pressure dial", source: sharedSource.dial(locomotive), u };
  return product(leak, { value: by, unit: "1", parts: [part] }, "ml/min");
}

const ROSE =
  "the pressure rose by more than can be laid to what is known of the temperature: read the water's temperature at both ends, and look whether the pump let water in";

/**
 * Whether what the temperature may have done can make the fall: a fall that may be none by its readings must not be larger
 * than that, for else it is the readings that leave it open.
 */
function drifted(fall: Measured, compliance: Measured, drift: Measured): boolean {
  if (!(fall.value > 0)) return false;
  const taken = -interval(drift)[0];
  return interval(fall)[0] > 0 || compliance.value * fall.value <= taken;
}

function heldOf(from: Sources, { fromS, toS, meanBar, fromBar, toBar }: Hold): Held {
  const read = readCold(from);
  const at = (atS: number) => temperatureAt(read, atS)?.celsius as number;
  return {
    fromS,
    toS,
    meanBar,
    fromBar,
    toBar,
    waterC: readTwice(read) ? { from: at(fromS), to: at(toS) } : null,
  };
}

/** Round hole, of discharge coefficient 1, that passes the leak of cold water at the pressure of the hold, mm. */
function holeOf({ around }: Sources, leak: Measured, barG: number): Measured {
  const density = 1000 * densityGPerMl(around.feedC, around);
  return holeMm(
    leak,
    (mlPerMin) => 1000 * waterHoleM((mlPerMin * 1e-6 * density) / 60, barG * PA_PER_BAR, density),
  );
}

/** By how much the water warmed in the hold, K, from what temperature, °C. */
function warming(from: Sources, { fromS, toS }: Hold): { startC: number; risenK: number; uK: number } {
  const { around } = from;
  const read = readCold(from);
  const [start, end] = [temperatureAt(read, fromS), temperatureAt(read, toS)];
  const startC = start?.celsius ?? around.feedC;
  if (start !== undefined && end !== undefined && readTwice(read))
    return { startC, risenK: end.celsius - startC, uK: Math.hypot(start.uK, end.uK) };
  const share = 1 - Math.exp(-(toS - fromS) / SETTLES_S);
  const mostK = share * (asWater(around.ambientC) - startC);
  const unrecordedK = around.assumed.length > 0 ? share * U_FEED_AS_AIR_K : 0;
  // a share that is evenly likely from none to all has a mean square of a third
  const apartK = (share * U_APART_K) / Math.sqrt(3);
  return { startC, risenK: mostK / 2, uK: Math.hypot(mostK / Math.sqrt(12), unrecordedK, apartK) };
}

/** Water that warming drove out beyond what the boiler grew, ml: a rise of temperature hides a leak, a fall imitates one. */
function driftOf(from: Sources, hold: Hold): Measured {
  const { around, geometry, locomotive } = from;
  const { startC, risenK, uK } = warming(from, hold);
  const startK = startC + ICE_POINT_K;
  const endK = startK + risenK;
  const ml = (a: number, b: number) =>
    1e6 * overflowM3(geometry.totalM3, locomotive.boiler.metal, around.absolutePa(hold.meanBar), a, b);
  const value = ml(startK, endK);
  const figure = measured(value, Math.abs(ml(endK, endK + 1)) * uK, "ml", "temperature of the water");
  return {
    ...figure,
    parts: [
      ...figure.parts,
      { name: "expansion of water and metal", u: EXPANSION_RELATIVE * Math.abs(value) },
    ],
  };
}

/** Without the water's temperature a fall may be a leak or not. */
export function coldHoldWarnings(from: Sources): Warning[] {
  if (!isColdHold(from) || longestRest(from) === null || readTwice(readCold(from))) return [];
  return [
    {
      code: "water-temperature-not-read",
      text: "The water's temperature was not read at both ends of the cold hold: read it, for a tenth of a degree can hide a leak or look like one.",
      entries: [],
    },
  ];
}
