import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import type { LogEntry } from "../../outbox/database.ts";
import { clockOf } from "../../words/time.ts";
import { lapsOf } from "./recorder.ts";

type Of<Kind extends LogEntry["kind"]> = Extract<LogEntry, { kind: Kind }>;

/** How the engine stands by what was written down last. */
export interface Standing {
  /** when she was lit, else when the first thing was written down */
  beganS: number | null;
  pressure: Of<"pressure"> | null;
  level: Of<"level"> | null;
  feed: Of<"feed"> | null;
  fedMl: number;
  laps: number;
  lastLapS: number | null;
  meanLapS: number | null;
  fire: "lit" | "out" | null;
  regulator: "open" | "shut" | null;
  bypass: "open" | "shut" | null;
  blower: "on" | "off" | null;
  valve: "lifts" | "reseats" | null;
  phase: Of<"phase">["name"] | null;
}

export function standingOf(entries: readonly LogEntry[]): Standing {
  const last = <Kind extends LogEntry["kind"]>(kind: Kind) =>
    (entries.findLast((each) => each.kind === kind) as Of<Kind> | undefined) ?? null;
  const feeds = entries.filter((each) => each.kind === "feed") as Of<"feed">[];
  const gaps = lapGaps(entries);
  const fire = last("fire");
  return {
    beganS: (fire?.state === "lit" ? fire : entries[0])?.atS ?? null,
    pressure: last("pressure"),
    level: last("level"),
    feed: last("feed"),
    fedMl: feeds.reduce((sum, each) => sum + each.ml, 0),
    laps: lapsOf(entries),
    lastLapS: gaps.at(-1) ?? null,
    meanLapS: gaps.length === 0 ? null : gaps.reduce((sum, gap) => sum + gap, 0) / gaps.length,
    fire: fire?.state ?? null,
    regulator: last("regulator")?.state ?? null,
    bypass: last("bypass")?.state ?? null,
    blower: last("blower")?.state ?? null,
    valve: last("valve")?.state ?? null,
    phase: last("phase")?.name ?? null,
  };
}

/** Seconds between laps that follow each other without a stop: the regulator was not shut between. */
function lapGaps(entries: readonly LogEntry[]): number[] {
  const gaps: number[] = [];
  let beforeS: number | null = null;
  for (const entry of entries) {
    if (entry.kind === "regulator" && entry.state === "shut") beforeS = null;
    if (entry.kind !== "lap" || entry.count === 0) continue;
    if (beforeS !== null) gaps.push((entry.atS - beforeS) / entry.count);
    beforeS = entry.atS;
  }
  return gaps;
}

export interface Alarm {
  /** what is said, the same for as long as it is the same danger */
  name:
    | "low-water"
    | "water-soon-low"
    | "water-unread"
    | "over-pressure"
    | "valve-should-lift"
    | "falling-fast";
  grade: "caution" | "danger";
  word: string;
}

/** Minutes until the water is at the lowest level: as is likely, and at the least. Not above 0: it is reckoned to be there. */
export interface WaterLeft {
  likelyMin: number | null;
  leastMin: number | null;
  /** when the glass was last looked at, if that was long ago */
  unreadSinceS: number | null;
}

/** The pressure falls fast where it loses so much of its working pressure in a minute (our choice). */
const FALLING_SHARE = 0.1;
/** Water is soon at the lowest where it may be there within so many minutes (our choice). */
const SOON_MIN = 3;
/** Beyond working pressure by so much (common practice of model codes: the limit of rise at full fire). */
const OVER = 1.1;

/** A boiler full of cold water is tested to this many working pressures at the most (our choice). */
export const TEST_DIAL = 2.5;

/** Whether she is in steam, as far as anybody wrote it down: lit, or with no word of the fire under pressure or under way. */
export const isAtWork = ({ fire, pressure, regulator, laps }: Standing): boolean =>
  fire === "lit" || (fire === null && ((pressure?.barG ?? 0) > 0 || regulator === "open" || laps > 0));

/**
 * What wants a look at once. Said by word, mark and sound, and never instead of looking at the glass.
 * @param isWaterTest tested with cold water, which goes above working pressure and falls on purpose, unless the fire is lit
 */
export function alarmsOf(
  engine: Locomotive,
  { pressure, level, fire }: Standing,
  fallBarPerMin: number,
  { likelyMin, leastMin, unreadSinceS }: WaterLeft,
  isWaterTest = false,
): Alarm[] {
  const alarms: Alarm[] = [];
  const raise = (name: Alarm["name"], grade: Alarm["grade"], word: string) =>
    alarms.push({ name, grade, word });
  const working = engine.workingPressureBarG;
  const isCold = isWaterTest && fire !== "lit";
  const burns = fire !== "out" && !isCold;
  if (level !== null && level.mm <= engine.boiler.lowestLevelMm) raise("low-water", "danger", "Low water");
  else if (burns && likelyMin !== null && likelyMin <= 0)
    raise("low-water", "danger", "Low water by the reckoning");
  else if (burns && leastMin !== null && leastMin < SOON_MIN)
    raise("water-soon-low", "caution", "Water soon low");
  else if (burns && leastMin === null && unreadSinceS !== null)
    raise("water-unread", "caution", `Water not looked at since ${clockOf(unreadSinceS)}`);
  if (pressure !== null && pressure.barG > (isCold ? TEST_DIAL : OVER) * working)
    raise("over-pressure", "danger", "Far above working pressure");
  else if (pressure !== null && pressure.barG > working && !isCold)
    raise("valve-should-lift", "caution", "Above working pressure");
  if (burns && fallBarPerMin > FALLING_SHARE * working)
    raise("falling-fast", "caution", "Pressure falling fast");
  return alarms.sort((a, b) => Number(b.grade === "danger") - Number(a.grade === "danger"));
}

/** By what each alarm is told from one that was said: a danger anew at each reading, and each minute while the fire burns. */
export const callsOf = (
  alarms: readonly Alarm[],
  { pressure, level, fire }: Standing,
  nowS: number,
): string[] =>
  alarms.map(({ name, grade }) => {
    if (grade === "caution") return name;
    const read = name === "low-water" ? level : pressure;
    const minutes = Math.floor(Math.max(0, nowS - (read?.atS ?? 0)) / 60);
    return `${name} ${read?.id} ${fire === "out" ? "" : minutes}`;
  });
