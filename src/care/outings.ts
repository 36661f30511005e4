import { inSteamS } from "../analysis/pressure/pressure-over-time.ts";
import { sourcesWithThermometer } from "../analysis/pressure/thermometer-between.ts";
import type { Report } from "../analysis/report-schema.ts";
import type { Sources } from "../analysis/sources.ts";
import { heldCold, steamFromS } from "../analysis/state/held-cold.ts";
import type { Locomotive } from "../logbook/locomotive.ts";
import type { Steaming } from "../logbook/steaming.ts";

/** A steaming with its report. */
export interface SteamingRecord {
  steaming: Steaming;
  report: Report;
}

/** A steaming in the course of the engine's life. */
export interface Outing extends SteamingRecord {
  sources: Sources;
  startMs: number;
  /** hours in steam of all outings before */
  hoursBefore: number;
  inSteamH: number;
  runningH: number;
  /** way of each piston, m; null where turns of the wheel cannot be told */
  pistonM: number | null;
  /** hours in steam of the engine's life at a moment of this outing's log */
  hoursAt(atS: number): number;
}

const SECONDS = 3600;

/** All outings of one engine in order of time, its hours in steam counted on from one to the next. */
export function outingsOf(locomotive: Locomotive, records: readonly SteamingRecord[]): Outing[] {
  const inOrder = records
    .map((record) => ({ ...record, startMs: Date.parse(record.steaming.startedAt) }))
    .sort((a, b) => a.startMs - b.startMs);
  let hoursBefore = 0;
  return inOrder.map(({ steaming, report, startMs }) => {
    const sources = sourcesWithThermometer(locomotive, steaming);
    const steamS = steamClock(sources);
    const endS = sources.timeline.lastS ?? 0;
    const before = hoursBefore;
    const inSteamH = steamS(endS) / SECONDS;
    hoursBefore += inSteamH;
    return {
      steaming,
      report,
      sources,
      startMs,
      hoursBefore: before,
      inSteamH,
      runningH: (report.totals?.runningS ?? 0) / SECONDS,
      pistonM: pistonWayM(sources, report),
      hoursAt: (atS) => before + steamS(Math.min(atS, endS)) / SECONDS,
    };
  });
}

/** Seconds in steam up to a moment: by the dial; without one, since the fire was lit. Cold water is no steam. */
function steamClock(sources: Sources): (atS: number) => number {
  const { pressure, timeline, steaming } = sources;
  if (heldCold(steaming, timeline)) return () => 0;
  const startS = steamFromS(sources, timeline.entries[0]?.atS ?? timeline.traces[0]?.startS ?? 0);
  if (pressure.points.length > 0) return (atS) => (atS > startS ? inSteamS(pressure, startS, atS) : 0);
  const litS = timeline.of("fire").find((entry) => entry.state === "lit")?.atS;
  return (atS) => (litS === undefined ? 0 : Math.max(0, atS - litS));
}

function pistonWayM(sources: Sources, report: Report): number | null {
  const { cylinders, drivingWheelMm } = sources.locomotive;
  if (cylinders === undefined) return null;
  const counted = sources.timeline.of("revolutions").reduce((sum, entry) => sum + entry.count, 0);
  const metres = report.totals?.distanceM ?? null;
  const turns =
    counted > 0
      ? counted
      : metres === null || drivingWheelMm === undefined
        ? null
        : (metres * 1000) / (Math.PI * drivingWheelMm);
  return turns === null ? null : (2 * cylinders.strokeMm * turns) / 1000;
}

/** Hours in steam of the engine's life at a moment by the calendar. */
export function hoursAtMoment(outings: readonly Outing[], atMs: number): number {
  let hours = 0;
  for (const outing of outings) {
    if (outing.startMs > atMs) break;
    hours = outing.hoursAt((atMs - outing.startMs) / 1000);
  }
  return hours;
}

/** Hours in steam of a usual outing; three quarters of an hour (common practice) before the first. */
export function usualOutingH(outings: readonly Outing[]): number {
  const hours = outings
    .map((outing) => outing.inSteamH)
    .filter((h) => h > 0)
    .sort((a, b) => a - b);
  return hours[hours.length >> 1] ?? 0.75;
}
