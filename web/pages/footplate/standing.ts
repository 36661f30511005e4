import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import type { LogEntry } from "../../outbox/database.ts";
import { lapsOf } from "./recorder.ts";

type Of<Kind extends LogEntry["kind"]> = Extract<LogEntry, { kind: Kind }>;

/** How the engine stands by what was written down last. */
export interface Standing {
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
  return {
    pressure: last("pressure"),
    level: last("level"),
    feed: last("feed"),
    fedMl: feeds.reduce((sum, each) => sum + each.ml, 0),
    laps: lapsOf(entries),
    lastLapS: gaps.at(-1) ?? null,
    meanLapS: gaps.length === 0 ? null : gaps.reduce((sum, gap) => sum + gap, 0) / gaps.length,
    fire: last("fire")?.state ?? null,
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
  name: "low-water" | "water-soon-low" | "over-pressure" | "valve-should-lift" | "falling-fast";
  grade: "caution" | "danger";
  word: string;
}

/** The pressure falls fast where it loses so much of its working pressure in a minute (our choice). */
const FALLING_SHARE = 0.1;
/** Water is soon at the lowest where it may be there within so many minutes (our choice). */
const SOON_MIN = 3;
/** Beyond working pressure by so much (common practice of model codes: the limit of rise at full fire). */
const OVER = 1.1;

/** What wants a look at once. Said by word, mark and sound, and never instead of looking at the glass. */
export function alarmsOf(
  engine: Locomotive,
  standing: Standing,
  trendBarPerMin: number | null,
  minutesLow: number | null,
): Alarm[] {
  const alarms: Alarm[] = [];
  const { pressure, level } = standing;
  const working = engine.workingPressureBarG;
  if (level !== null && level.mm <= engine.boiler.lowestLevelMm) {
    alarms.push({ name: "low-water", grade: "danger", word: "Low water" });
  } else if (minutesLow !== null && minutesLow < SOON_MIN) {
    alarms.push({ name: "water-soon-low", grade: "caution", word: "Water soon low" });
  }
  if (pressure !== null && pressure.barG > OVER * working) {
    alarms.push({ name: "over-pressure", grade: "danger", word: "Far above working pressure" });
  } else if (pressure !== null && pressure.barG > working) {
    alarms.push({ name: "valve-should-lift", grade: "caution", word: "Above working pressure" });
  }
  if (trendBarPerMin !== null && standing.fire !== "out" && trendBarPerMin < -FALLING_SHARE * working) {
    alarms.push({ name: "falling-fast", grade: "caution", word: "Pressure falling fast" });
  }
  return alarms.sort((a, b) => Number(b.grade === "danger") - Number(a.grade === "danger"));
}
