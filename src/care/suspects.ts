import { normalBelow } from "../statistics/normal-distribution.ts";
import { worseThan } from "./indicator-course.ts";
import { type Indicator, indicators } from "./indicators.ts";
import type { Outing } from "./outings.ts";
import {
  CHANCE_BY_ACCIDENT,
  circumstances,
  type Fault,
  faults,
  type Sign,
  signWords,
} from "./suspect-table.ts";

export interface Suspect {
  name: string;
  /** share of the blame, 0 to 1 */
  weight: number;
  why: string;
  speaksFor: string[];
  speaksAgainst: string[];
  check: string;
}

/** How sure it is that each sign is there, 0 to 1; a sign of which nothing is known is missing. */
export type Signs = ReadonlyMap<Sign, number>;

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

/** A change of this many standard deviations is at even chances a sign. */
const EVEN_AT = 2;
/** Nothing is suspected unless some sign is as sure as this. */
const SURE_SIGN = 0.7;
const LEAST_WEIGHT = 0.05;
const RECENT_MOST = 3;
const EARLIER_LEAST = 2;

/** Where to look first, from what has changed of late against the engine's own earlier outings. */
export function suspectsOf(signs: Signs): Suspect[] {
  if (![...signs].some(([sign, sure]) => sure >= SURE_SIGN && !circumstances.includes(sign))) return [];
  const scored = faults.map((fault) => ({ fault, score: fault.usual * likelihood(fault, signs) }));
  const total = scored.reduce((sum, { score }) => sum + score, 0);
  return scored
    .map(({ fault, score }) => suspect(fault, score / total, signs))
    .filter(({ weight }) => weight >= LEAST_WEIGHT)
    .sort((a, b) => b.weight - a.weight);
}

const chanceOf = (fault: Fault, sign: Sign): number => fault.shows[sign] ?? CHANCE_BY_ACCIDENT;

function likelihood(fault: Fault, signs: Signs): number {
  let product = 1;
  for (const [sign, sure] of signs) {
    const chance = chanceOf(fault, sign);
    product *= sure * chance + (1 - sure) * (1 - chance);
  }
  return product;
}

function suspect(fault: Fault, weight: number, signs: Signs): Suspect {
  const there = [...signs].filter(([, sure]) => sure > 0.5).map(([sign]) => sign);
  const missing = [...signs].filter(([, sure]) => sure < 0.5).map(([sign]) => sign);
  const speaksFor = there.filter((sign) => fault.shows[sign] !== undefined).map((sign) => signWords[sign]);
  const speaksAgainst = [
    ...there
      .filter((sign) => fault.shows[sign] === undefined)
      .map((sign) => `${signWords[sign]}, which it would not explain`),
    ...missing.filter((sign) => chanceOf(fault, sign) > 0.5).map((sign) => `not so that ${signWords[sign]}`),
  ];
  const pro =
    speaksFor.length === 0 ? "nothing speaks for it but that it is often the trouble" : speaksFor.join("; ");
  const con = speaksAgainst.length === 0 ? "" : ` Against: ${speaksAgainst.join("; ")}.`;
  return {
    name: fault.name,
    weight,
    why: `For: ${pro}.${con} By common practice, ${Math.round(100 * weight)} in 100.`,
    speaksFor,
    speaksAgainst,
    check: fault.check,
  };
}

/**
 * Signs from the indicators of the last one to three outings against all before them: as many as make the change
 * stand out most.
 */
export function signsOfEngine(outings: readonly Outing[]): Map<Sign, number> {
  const tables = indicators.map((indicator) => ({
    indicator,
    values: outings.map((outing) => ({
      value: indicator.value(outing),
      like: indicator.like?.(outing) ?? "",
    })),
  }));
  const windows = Array.from({ length: RECENT_MOST }, (_, i) =>
    tables.map(({ indicator, values }) => changeOf(indicator, values, i + 1)),
  );
  const outstanding = (changes: readonly (number | null)[]) =>
    changes.reduce<number>((sum, z) => sum + Math.max(0, (z ?? 0) - 1) ** 2, 0);
  const best = windows.reduce((a, b) => (outstanding(b) > outstanding(a) ? b : a), windows[0] ?? []);
  const signs = new Map<Sign, number>();
  best.forEach((z, i) => {
    const sign = signOf[tables[i]?.indicator.key ?? ""];
    if (sign === undefined || z === null) return;
    signs.set(sign, Math.max(signs.get(sign) ?? 0, normalBelow(z - EVEN_AT)));
  });
  return signs;
}

interface Valued {
  value: { value: number; u: number } | null;
  like: string;
}

/** Mean change for the worse of the last outings against like ones before, in its own standard deviations. */
function changeOf(indicator: Indicator, values: readonly Valued[], recent: number): number | null {
  const now = values.slice(-recent);
  const zs = now.flatMap(({ value, like }) => {
    const before = values
      .slice(0, -recent)
      .flatMap((other) => (other.like === like && other.value !== null ? [other.value] : []));
    if (value === null || before.length < EARLIER_LEAST) return [];
    return [worseThan(indicator, before, value)];
  });
  return zs.length === 0 ? null : zs.reduce((sum, z) => sum + z, 0) / Math.sqrt(zs.length);
}
