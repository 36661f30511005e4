import type { Report } from "../analysis/report-schema.ts";
import { ICE_POINT_K } from "../analysis/state/circumstances.ts";
import { coldAt } from "../analysis/state/held-cold.ts";
import { pumpingStretches } from "../analysis/water/demand-effects.ts";
import { glassReading } from "../logbook/glass-reading.ts";
import type { Reported } from "../quantity/reported.ts";
import type { Outing } from "./outings.ts";

/** What one steaming says of an indicator. */
export interface Value {
  value: number;
  u: number;
}

export const figure = (reported: Reported | undefined): Value | null =>
  reported === undefined || reported.value === null ? null : { value: reported.value, u: reported.u };

/** What an axle pump fed is not known: what was drawn is no better known, and tells of no change. */
export const fedUnknown = ({ pump }: Report): boolean => pump !== null && pump.perRevolution.value === null;

const LEAST_PUMPING_S = 120;

/** How fast the glass rises or falls while the axle pump feeds: straight through the readings of each such stretch. */
export function levelPumping({ sources, report }: Outing): Value | null {
  const { timeline, errors } = sources;
  const fed = pumpingStretches(timeline, report.phases) ?? [];
  let [along, across] = [0, 0];
  for (const [fromS, toS] of fed) {
    const read = timeline
      .of("level")
      .filter((entry) => entry.atS >= fromS && entry.atS <= toS && glassReading(entry) === "exact");
    const [first, last] = [read[0], read.at(-1)];
    if (first === undefined || last === undefined || last.atS - first.atS < LEAST_PUMPING_S) continue;
    const meanS = read.reduce((sum, { atS }) => sum + atS, 0) / read.length;
    along += read.reduce((sum, { atS, mm }) => sum + (atS - meanS) * mm, 0);
    across += read.reduce((sum, { atS }) => sum + (atS - meanS) ** 2, 0);
  }
  return across === 0
    ? null
    : { value: (60 * along) / across, u: (60 * errors.levelReadingMm) / Math.sqrt(across) };
}

export function shutInWater(report: Report): Value | null {
  const known = report.phases
    .filter(({ name, fromS, toS }) => name === "shut-in" && toS - fromS > 240)
    .map((phase) => figure(phase.steamingRate))
    .filter((value) => value !== null)
    .sort((a, b) => a.u - b.u);
  return known[0] ?? null;
}

/** Nobody reads the dial just as the valve moves: what is read about it strays by so much, bar (our estimate). */
const AT_THE_DIAL = 0.12;

/** Where the safety valve lifted or reseated; null where it was not seen to, or cold water under a pump moved it. */
export function valveAt(
  { report, sources }: Outing,
  figureOf: "lift" | "reseat",
  state: "lifts" | "reseats",
): Value | null {
  const seen = sources.timeline.of("valve").filter((entry) => entry.state === state);
  if (seen.some(({ atS }) => coldAt(sources, atS))) return null;
  const read = seen.map((entry) => sources.pressure.atS(entry.atS)).filter((barG) => barG !== null);
  return (
    figure(report.safetyValve?.[figureOf]) ??
    (read.length === 0
      ? null
      : { value: read.reduce((a, b) => a + b, 0) / read.length, u: AT_THE_DIAL / Math.sqrt(read.length) })
  );
}

export function runningPressure(report: Report): Value | null {
  const running = report.phases.filter((phase) => phase.name === "running");
  const seconds = running.reduce((sum, phase) => sum + phase.toS - phase.fromS, 0);
  if (seconds === 0 || running.some((phase) => phase.meanPressureBarG === null)) return null;
  const total = running.reduce(
    (sum, phase) => sum + (phase.meanPressureBarG ?? 0) * (phase.toS - phase.fromS),
    0,
  );
  return { value: total / seconds, u: 0.03 };
}

/** The surface's loss goes with this power of what the boiler is hotter than the air (as in the cooling law). */
const LOSS_POWER = 1.25;
const LIKE_AIR_C = 20;

/** Heat lost standing, set right for the air of the day: as it would be in air of 20 °C. */
export function standingLoss({ report, sources }: Outing): Value | null {
  const loss = figure(report.cooling?.lossAtWorkingPressure);
  if (loss === null) return null;
  const { around, locomotive } = sources;
  const boilerC = around.boilingK(locomotive.workingPressureBarG) - ICE_POINT_K;
  const likeAir = ((boilerC - LIKE_AIR_C) / (boilerC - around.ambientC)) ** LOSS_POWER;
  return { value: loss.value * likeAir, u: loss.u * likeAir };
}
