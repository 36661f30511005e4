import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import type { LogEntry } from "../../outbox/database.ts";
import { reading } from "../../words/entry-words.ts";

/** Why an entry looks odd beside what stood before it, and what may have been meant. */
export interface Doubt {
  words: string;
  /** the same entry as it may have been meant; null where nothing suggests itself */
  meant: LogEntry | null;
}

/** A boiler's pressure does not change by more of its working pressure in a minute (our choice, for a question only). */
const PRESSURE_SHARE_A_MINUTE = 1;
/** Laps are not run in less than so much of the usual time (our choice). */
const QUICK_LAP = 0.5;

/** A question, never a refusal: the entry is kept as it was tapped. */
export function doubtOf(entry: LogEntry, before: readonly LogEntry[], engine: Locomotive): Doubt | null {
  if (entry.kind === "pressure") return pressureDoubt(entry, before, engine);
  if (entry.kind === "level") return levelDoubt(entry, before, engine);
  if (entry.kind === "lap") return lapDoubt(entry, before);
  if (entry.kind === "feed" || entry.kind === "fuel") return amountDoubt(entry, before);
  return null;
}

const lastOf = <Kind extends LogEntry["kind"]>(kind: Kind, before: readonly LogEntry[]) =>
  before.findLast((entry) => entry.kind === kind) as Extract<LogEntry, { kind: Kind }> | undefined;

function pressureDoubt(
  entry: Extract<LogEntry, { kind: "pressure" }>,
  before: readonly LogEntry[],
  engine: Locomotive,
): Doubt | null {
  const last = lastOf("pressure", before);
  const from = last?.barG ?? 0;
  const minutes = last === undefined ? 1 : Math.max(0.5, (entry.atS - last.atS) / 60);
  const may = PRESSURE_SHARE_A_MINUTE * engine.workingPressureBarG * minutes;
  const far = (barG: number) =>
    last === undefined ? barG > 3 * engine.workingPressureBarG : Math.abs(barG - from) > may;
  const beyond = entry.barG > 2 * engine.workingPressureBarG;
  if (!far(entry.barG) && !beyond) return null;
  const meantBar = [entry.barG / 10, entry.barG * 10].find(
    (barG) => !far(barG) && barG <= 1.5 * engine.workingPressureBarG && barG > 0,
  );
  return {
    words: `${last === undefined ? "" : `${reading(from, "bar")}, then `}${reading(entry.barG, "bar")}?`,
    meant: meantBar === undefined ? null : { ...entry, barG: Number(meantBar.toPrecision(9)) },
  };
}

function levelDoubt(
  entry: Extract<LogEntry, { kind: "level" }>,
  before: readonly LogEntry[],
  engine: Locomotive,
): Doubt | null {
  const last = lastOf("level", before);
  const range = engine.boiler.highestLevelMm - engine.boiler.lowestLevelMm;
  const inGlass = (mm: number) =>
    mm >= engine.boiler.lowestLevelMm - range && mm <= engine.boiler.highestLevelMm + range;
  const fedSince = before.some(
    (each) =>
      last !== undefined && each.atS >= last.atS && ["feed", "fill", "bypass", "fire"].includes(each.kind),
  );
  const rise = last === undefined ? 0 : entry.mm - last.mm;
  // water swells as it is heated and foams as it is drawn: only a rise beyond half the range asks a question
  const risen = !fedSince && rise > range / 2;
  if (inGlass(entry.mm) && !risen) return null;
  const meantMm = [entry.mm / 10, entry.mm * 10].find(
    (mm) => inGlass(mm) && (last === undefined || Math.abs(mm - last.mm) <= range / 2),
  );
  return {
    words: risen
      ? `${reading(last?.mm ?? 0, "mm")}, then ${reading(entry.mm, "mm")} with nothing fed?`
      : `${reading(entry.mm, "mm")} is outside the glass?`,
    meant: meantMm === undefined ? null : { ...entry, mm: meantMm },
  };
}

function lapDoubt(entry: Extract<LogEntry, { kind: "lap" }>, before: readonly LogEntry[]): Doubt | null {
  const laps = before.filter((each) => each.kind === "lap").map((each) => each.atS);
  const gaps = laps.slice(1).map((atS, i) => atS - (laps[i] ?? atS));
  const usual = [...gaps].sort((a, b) => a - b)[Math.floor(gaps.length / 2)];
  const lastS = laps.at(-1);
  if (gaps.length < 3 || usual === undefined || lastS === undefined) return null;
  const tookS = entry.atS - lastS;
  return tookS < QUICK_LAP * usual
    ? {
        words: `A lap in ${tookS.toFixed(1)} s, when ${usual.toFixed(0)} s is usual: tapped twice?`,
        meant: null,
      }
    : null;
}

function amountDoubt(
  entry: Extract<LogEntry, { kind: "feed" | "fuel" }>,
  before: readonly LogEntry[],
): Doubt | null {
  const amount = (each: LogEntry) =>
    each.kind === "feed"
      ? each.ml
      : each.kind === "fuel" && each.action === "added"
        ? (each.g ?? each.ml)
        : undefined;
  const now = amount(entry);
  const usual = before
    .filter(
      (each) =>
        each.kind === entry.kind && (each.kind !== "feed" || entry.kind !== "feed" || each.by === entry.by),
    )
    .map(amount)
    .filter((each) => each !== undefined && each > 0);
  const most = Math.max(...usual.map((each) => each ?? 0));
  if (now === undefined || usual.length < 2 || now <= 5 * most) return null;
  const unit = entry.kind === "fuel" && entry.g !== undefined ? "g" : "ml";
  return { words: `${reading(now, unit)}, when ${reading(most, unit)} was the most before?`, meant: null };
}
