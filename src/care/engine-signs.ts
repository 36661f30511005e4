import type { Fitting } from "../logbook/locomotive.ts";
import { normalBelow } from "../statistics/normal-distribution.ts";
import { type Indicator, indicators } from "./indicators.ts";
import type { Outing } from "./outings.ts";
import { checkOfSign, type Fault, faults, type Sign } from "./suspect-table.ts";
import { type Comparable, comparableOf, worseThan } from "./worse-than.ts";

/** How sure it is that each sign is there, 0 to 1; a sign of which nothing is known is missing. */
export type Signs = ReadonlyMap<Sign, number>;

/** When a fitting of one of these kinds was last serviced, ms; -Infinity where none was. */
export type LastDone = (kinds: readonly Fitting["kind"][]) => number;

const signOf: Readonly<Record<string, Sign>> = {
  "water-a-lap": "water-up",
  "missing-quantity": "water-up",
  "shut-in-fall": "shut-in-falls",
  "standing-loss": "shut-in-falls",
  "shut-in-shape": "fall-stops",
  "shut-in-water": "shut-in-water",
  "hot-hold-leak": "shut-in-water",
  "cold-hold-leak": "shut-in-water",
  lift: "lifts-early",
  reseat: "lifts-early",
  "pump-delivery": "pump-weak",
  "level-pumping": "level-falls-pumping",
  "evaporation-ratio": "water-to-fuel-up",
  "running-pressure": "pressure-sags",
};

/** How the sign that an indicator gives is looked for; null where a fitting's own readings tell more. */
export function checkOfIndicator(key: string): string | null {
  const sign = signOf[key];
  // how she falls is seen in the same readings as how fast
  return sign === undefined ? null : (checkOfSign[sign === "fall-stops" ? "shut-in-falls" : sign] ?? null);
}

/** A change of this many standard deviations is at even chances a sign. */
const EVEN_AT = 2;
/** So many outings may be "of late": the change may have come at any of them. */
const LATE = [1, 2, 3, 6] as const;
const EARLIER_LEAST = 2;
/** So many outings before a mending are no standard: they led to it. */
const LED_TO_IT = 3;
/** A fault that shows a sign with less than this chance seldom moves it. */
const MOVES = 0.3;

interface Dated extends Comparable {
  startMs: number;
}

/**
 * Signs from the indicators: the last outings against those before, for as many of the last as make the change stand out
 * most. For a fault of a fitting that was serviced only outings since count; and for no fault does an outing before
 * the last service of a fitting that moves an indicator count as one of late, as that may have mended it, nor the last
 * few before it for a standard.
 */
export function engineSigns(outings: readonly Outing[], lastDone: LastDone): (fault: Fault) => Signs {
  const tables = indicators.map((indicator) => ({
    indicator,
    values: outings.map((outing): Dated | null => {
      const value = comparableOf(indicator, outing);
      return value === null ? null : { ...value, startMs: outing.startMs };
    }),
    mendedMs: lastDone(kindsThatMove(indicator)),
  }));
  const known = new Map<number, Signs>();
  return ({ kind }) => {
    const fromMs = kind === undefined ? Number.NEGATIVE_INFINITY : lastDone([kind]);
    const signs = known.get(fromMs) ?? signsSince(tables, fromMs);
    known.set(fromMs, signs);
    return signs;
  };
}

/** Kinds of fitting whose fault would move an indicator: a service of one may have set it right. */
function kindsThatMove({ key, of }: Indicator): Fitting["kind"][] {
  const sign = signOf[key];
  const showing = faults.filter(({ shows }) => sign !== undefined && (shows[sign] ?? 0) >= MOVES);
  return [...of, ...showing.flatMap(({ kind }) => kind ?? [])];
}

interface Table {
  indicator: Indicator;
  values: readonly (Dated | null)[];
  mendedMs: number;
}

function signsSince(tables: readonly Table[], fromMs: number): Signs {
  const windows = LATE.map((late) => tables.map((table) => changeOf(table, late, fromMs)));
  const outstanding = (changes: readonly (number | null)[]) =>
    changes.reduce<number>((sum, z) => sum + Math.max(0, (z ?? 0) - 1) ** 2, 0);
  const best = windows.reduce((a, b) => (outstanding(b) > outstanding(a) ? b : a));
  const signs = new Map<Sign, number>();
  best.forEach((z, i) => {
    const sign = signOf[tables[i]?.indicator.key ?? ""];
    if (sign === undefined || z === null) return;
    signs.set(sign, Math.max(signs.get(sign) ?? 0, normalBelow(z - EVEN_AT)));
  });
  return signs;
}

/** Change for the worse of the last outings together against like ones before, in its own standard deviations. */
function changeOf({ indicator, values, mendedMs }: Table, late: number, fromMs: number): number | null {
  const there = (value: Dated | null): value is Dated => value !== null;
  const now = values
    .slice(-late)
    .filter(there)
    .filter(({ startMs }) => startMs >= Math.max(fromMs, mendedMs));
  const ledToMending = values.filter((value) => there(value) && value.startMs < mendedMs).slice(-LED_TO_IT);
  const before = values
    .slice(0, -late)
    .filter(there)
    .filter((value) => !ledToMending.includes(value))
    .filter(({ startMs }) => indicator.ownBest === true || startMs >= fromMs);
  const zs = [...new Set(now.map(({ like }) => like))].flatMap((like) => {
    const earlier = before.filter((one) => one.like === like);
    if (earlier.length < EARLIER_LEAST) return [];
    return [
      worseThan(
        indicator,
        earlier,
        now.filter((one) => one.like === like),
      ),
    ];
  });
  return zs.length === 0 ? null : zs.reduce((sum, z) => sum + z, 0) / Math.sqrt(zs.length);
}
