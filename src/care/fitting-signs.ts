import type { Fitting } from "../logbook/locomotive.ts";
import { normalBelow } from "../statistics/normal-distribution.ts";
import type { LastDone, Signs } from "./engine-signs.ts";
import type { FittingCare } from "./fitting-care.ts";
import type { Outing } from "./outings.ts";
import type { Sign } from "./suspect-table.ts";

const signOfKind: Partial<Record<Fitting["kind"], Sign>> = {
  gland: "gland-seen",
  clack: "clack-seen",
  regulator: "regulator-seen",
  "safety-valve": "valve-seen",
  pump: "pump-seen",
};
/** What was seen of a fitting before says nothing of a fault that has come since. */
const LATE_OUTINGS = 3;

/** A catch of more than this part of the limit is a leak to be seen. */
const SEEN_FROM = 0.6;
/** However sure a reading, the cloth may have slipped or missed. */
const SUREST = 0.97;

/** How sure it is that a fitting is seen to leak: by its late catches, else by its late looks. */
function seen({ leak, looks, limit, state }: FittingCare, late: readonly string[]): number | null {
  const isLate = (reading: { steamingId: string } | undefined) =>
    reading !== undefined && late.includes(reading.steamingId);
  const last = leak?.points.at(-1);
  if (last !== undefined && limit !== null && isLate(last.reading)) {
    if (state === "attend") return SUREST;
    const beyond = (last.y - SEEN_FROM * limit.gPerMin) / Math.hypot(last.sd, 0.1 * limit.gPerMin);
    return Math.min(SUREST, Math.max(1 - SUREST, normalBelow(beyond)));
  }
  if (looks === null || !isLate(looks.looks.at(-1))) return null;
  return 1 - SUREST + (2 * SUREST - 1) * looks.chanceOf("weeping");
}
/** So much of three quarters of the glass and above counts as running with it high. */
const HIGH_GLASS = 0.75;

/** Names of the fittings that give a sign of their kind: those rather seen to leak than not. */
export function fittingsThatSpeak(
  fittings: readonly FittingCare[],
  outings: readonly Outing[],
): ReadonlyMap<Sign, readonly string[]> {
  const late = lateOf(outings);
  const names = new Map<Sign, readonly string[]>();
  for (const care of fittings) {
    const sign = signOfKind[care.fitting.kind];
    if (sign === undefined || (seen(care, late) ?? 0) <= 0.5) continue;
    names.set(sign, [...(names.get(sign) ?? []), care.fitting.name]);
  }
  return names;
}

const lateOf = (outings: readonly Outing[]): string[] =>
  outings.slice(-LATE_OUTINGS).map(({ steaming }) => steaming.id);

/** Signs from single fittings and from what was logged of late; a service since has answered what it speaks of. */
export function signsOfFittings(
  fittings: readonly FittingCare[],
  outings: readonly Outing[],
  lastDone: LastDone,
): Signs {
  const signs = new Map<Sign, number>();
  const raise = (sign: Sign, sure: number) => signs.set(sign, Math.max(signs.get(sign) ?? 0, sure));
  const late = lateOf(outings);
  for (const care of fittings) {
    const sign = signOfKind[care.fitting.kind];
    const sure = seen(care, late);
    if (sign !== undefined && sure !== null) raise(sign, sure);
  }
  const last = outings.at(-1);
  if (last === undefined) return signs;
  const notSince = (kind: Fitting["kind"]) => last.startMs >= lastDone([kind]);
  const { timeline, locomotive, phases, around } = last.sources;
  const running = phases.filter((phase) => phase.name === "running");
  const { lowestLevelMm, highestLevelMm } = locomotive.boiler;
  const levels = timeline
    .of("level")
    .filter(({ atS }) => running.some((phase) => atS >= phase.fromS && atS <= phase.toS))
    .map(({ mm }) => (mm - lowestLevelMm) / (highestLevelMm - lowestLevelMm));
  if (levels.length > 0) {
    raise("glass-high", Math.max(...levels) > HIGH_GLASS ? 0.9 : 0.1);
    raise("level-low", Math.min(...levels) < 0 ? 0.9 : 0.05);
  }
  const shutIn = phases.filter((phase) => phase.name === "shut-in");
  const inShutIn = (atS: number) => shutIn.some((phase) => atS > phase.fromS + 60 && atS <= phase.toS);
  const feed = timeline.of("temperature").filter((entry) => entry.of === "feed" && inShutIn(entry.atS));
  if (feed.length > 0 && notSince("clack")) {
    const hottest = Math.max(...feed.map((entry) => entry.celsius));
    raise("feed-pipe-hot", hottest > around.ambientC + 25 ? 0.95 : 0.05);
  }
  const turns = [...timeline.of("lap"), ...timeline.of("revolutions")];
  if (shutIn.length > 0 && notSince("regulator"))
    raise("creeps", turns.some(({ atS, count }) => count > 0 && inShutIn(atS)) ? 0.9 : 0.3);
  return signs;
}
