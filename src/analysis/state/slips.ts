import type { BoilerGeometry } from "../../boiler/geometry.ts";
import type { EntryOf } from "../../logbook/entry.ts";
import { isInSight } from "../../logbook/glass-reading.ts";
import type { Locomotive } from "../../logbook/locomotive.ts";
import type { Timeline } from "../../logbook/timeline.ts";
import type { ReadingErrors } from "./instruments.ts";

type Read<Kind extends "pressure" | "level"> = EntryOf<Kind> & { id: string };

/** So far from both its neighbours, in working pressures, and so many reading errors, a reading stands alone. */
const FAR = { ofWorking: 0.4, errors: 8 };
/** Neighbours that are this near in time tell, s. */
const NEAR_S = 150;
/** No boiler with a working safety valve goes beyond the first, and none at all to the second, in working pressures. */
const NEVER = { withValve: 1.6, atAll: 3 };

/** A reading of the dial that its neighbours do not bear out: 4.1, 42, 4.2. */
export interface Outlying {
  reading: Read<"pressure">;
  /** the readings before and after it, bar */
  besideBarG: readonly number[];
  /** near ten times, or a tenth of, its neighbours */
  pointSlipped: boolean;
  /** both neighbours say that it cannot have been: no figure is to lean on it */
  isSlip: boolean;
}

export function outlyingPressures(
  timeline: Timeline,
  errors: Pick<ReadingErrors, "pressureReadingBar">,
  { workingPressureBarG: working }: Pick<Locomotive, "workingPressureBarG">,
): Outlying[] {
  const readings = timeline.of("pressure");
  // before the strokes of a hand pump and after them are no neighbours
  const unlessPumped = (fromS: number, toS: number, other: Read<"pressure"> | undefined) =>
    timeline.of("strokes").some(({ atS }) => atS > fromS && atS <= toS) ? undefined : other;
  const far = Math.max(FAR.ofWorking * working, FAR.errors * errors.pressureReadingBar);
  return readings.flatMap((reading, i): Outlying[] => {
    const [first, last] = [readings[i - 1], readings[i + 1]];
    const before = unlessPumped(first?.atS ?? reading.atS, reading.atS, first);
    const after = unlessPumped(reading.atS, last?.atS ?? reading.atS, last);
    if (Math.abs(reading.barG - (before ?? after ?? reading).barG) <= far) return [];
    const beside = [before, after].filter((other) => other !== undefined);
    const off = beside.map((other) => reading.barG - other.barG);
    const up = off.every((value) => value > far);
    if (!up && !off.every((value) => value < -far)) return [];
    const between = beside.length === 2;
    const soon = between && beside.every((other) => Math.abs(other.atS - reading.atS) <= NEAR_S);
    const times = reading.barG / (beside.reduce((sum, other) => sum + other.barG, 0) / beside.length);
    const pointSlipped = Math.abs(times - 10) < 2.5 || Math.abs(times - 0.1) < 0.025;
    // cold feed and a long pull take a pressure down and let it up again; nothing takes it up and lets it down so soon
    const beyond = up && reading.barG > NEVER.withValve * working;
    // the last one has no neighbour after it: a tenth of the one before is asked about while nobody lets the steam off
    const tenth =
      pointSlipped &&
      !up &&
      after === undefined &&
      before !== undefined &&
      before.barG <= NEVER.withValve * working &&
      stillUp(timeline, before.atS, reading.atS);
    if (!(beyond || tenth || (soon && (up || pointSlipped)))) return [];
    const never = up && reading.barG > NEVER.atAll * working;
    const isSlip = between && (never || (soon && (beyond || pointSlipped)));
    return [{ reading, besideBarG: beside.map(({ barG }) => barG), pointSlipped, isSlip }];
  });
}

function stillUp(timeline: Timeline, beforeS: number, atS: number): boolean {
  const fire = timeline.of("fire").findLast((entry) => entry.atS <= atS);
  const letOff = [...timeline.of("blowdown"), ...timeline.of("drained")].some(
    (entry) => entry.atS >= beforeS,
  );
  return atS - beforeS <= NEAR_S && fire?.state !== "out" && !letOff;
}

/** Beyond the ends of the boiler by this many reading errors is beyond doubt. */
const BEYOND = 3;

/** Levels that no glass on this boiler can show: below its lowest inside point, or above its top. */
export function levelsBeyondBoiler(
  timeline: Timeline,
  errors: Pick<ReadingErrors, "levelReadingMm">,
  geometry: BoilerGeometry,
): { below: readonly Read<"level">[]; above: readonly Read<"level">[] } {
  const slack = BEYOND * errors.levelReadingMm;
  const lowestMm = geometry.levelMmAtWaterM3(0) - slack;
  const highestMm = geometry.levelMmAtWaterM3(geometry.totalM3) + slack;
  const read = timeline.of("level").filter(isInSight);
  return { below: read.filter(({ mm }) => mm < lowestMm), above: read.filter(({ mm }) => mm > highestMm) };
}
