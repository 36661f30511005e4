import { questionsAtTap } from "../../../src/analysis/plausibility/at-the-tap.ts";
import type { Question } from "../../../src/analysis/plausibility/question.ts";
import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import type { SteamingHead } from "../../../src/logbook/steaming.ts";
import type { LogEntry } from "../../outbox/database.ts";
import { footplate } from "../../preferences/footplate.ts";
import { levelWords, reading } from "../../words/entry-words.ts";
import { beyondWords } from "./beyond.ts";

/** A question about an entry: never a refusal, it is kept as it was tapped. */
export interface Doubt {
  /** the entry just written, or the one of its kind before it, which only now is seen to stand alone */
  entryId: string;
  words: string;
}

interface Log {
  engine: Locomotive;
  head: SteamingHead;
}

/** Once said, these are not said again of every reading that follows. */
const SAID_ONCE = ["dial-stuck", "pressure-and-temperature"];

/**
 * What the sheet's own checks, and a glance at the amounts, say of the entry written last.
 * @param entries all that stands, in the order in which it was written, `entry` the last of its kind
 */
export function doubtOf(entry: LogEntry, entries: readonly LogEntry[], { engine, head }: Log): Doubt | null {
  const late = lateBy(entry, entries);
  if (late !== null) return { entryId: entry.id, words: late };
  const before = entries.filter((each) => each.id !== entry.id && each.atS <= entry.atS);
  if (isTenth(entry, before, engine))
    return { entryId: entry.id, words: `${reading((entry as Pressure).barG, "bar")}, and she is at work?` };
  const beyond = beyondWords(entry, before, engine);
  if (beyond !== null) return { entryId: entry.id, words: beyond };
  if (entry.kind === "feed" || entry.kind === "fuel") return amountDoubt(entry, before);
  const questionsOf = (list: readonly LogEntry[]) =>
    questionsAtTap(engine, { ...head, entries: [...list] }, entry.kind);
  const found = questionsOf([...before, entry]);
  const earlier = before.findLast((each) => each.kind === entry.kind);
  const own = found.find((each) => each.entries.includes(entry.id));
  const ofEarlier = found.find((each) => earlier !== undefined && each.entries.includes(earlier.id));
  if (own === undefined && ofEarlier === undefined) return null;
  const told = questionsOf(before);
  if (own !== undefined) {
    const again = SAID_ONCE.includes(own.code) && told.some((each) => each.code === own.code);
    return again ? null : { entryId: entry.id, words: wordsOf(own, entry, earlier) };
  }
  if (earlier === undefined || ofEarlier === undefined || SAID_ONCE.includes(ofEarlier.code)) return null;
  // it was asked about when it was the last itself
  if (told.some((each) => each.entries.includes(earlier.id))) return null;
  const first = before.findLast((each) => each.kind === entry.kind && each.id !== earlier.id);
  return { entryId: earlier.id, words: wordsOf(ofEarlier, earlier, first, entry) };
}

type Pressure = Extract<LogEntry, { kind: "pressure" }>;

/** An engine at work below this share of her working pressure is asked about, if ten times as much would be within it (our choice). */
const AT_WORK_SHARE = 0.25;

/** A first reading of the gauge that may be a tenth of what it showed. */
function isTenth(entry: LogEntry, others: readonly LogEntry[], engine: Locomotive): boolean {
  return (
    entry.kind === "pressure" &&
    entry.barG > 0 &&
    entry.barG < AT_WORK_SHARE * engine.workingPressureBarG &&
    10 * entry.barG <= 1.1 * engine.workingPressureBarG &&
    !others.some((each) => each.kind === "pressure" && each.id !== entry.id) &&
    others.some((each) => each.kind === "lap" || (each.kind === "regulator" && each.state === "open"))
  );
}

/** As short as the Footplate needs it. */
function wordsOf({ code, entries }: Question, entry: LogEntry, earlier?: LogEntry, later?: LogEntry): string {
  const values = [earlier, entry, later].flatMap((each) =>
    each?.kind === "pressure" ? reading(each.barG, "bar") : each?.kind === "level" ? levelWords(each) : [],
  );
  switch (code) {
    case "reading-outlying":
      return `${values.join(", then ")}?`;
    case "filled-on-top":
    case "level-rising":
      // the first reading of all is held against what was filled
      return values.length < 2 || code === "filled-on-top"
        ? `${values.at(-1)}: more than was filled and fed?`
        : `${values.join(", then ")} with nothing fed?`;
    case "level-beyond-boiler":
      return `${values.at(-1)} is beyond the boiler itself?`;
    case "laps-too-fast": {
      const tookS = entry.atS - (earlier?.atS ?? entry.atS);
      return `A lap in ${tookS.toFixed(1)} s: tapped twice?`;
    }
    case "dial-stuck":
      return `The dial showed ${values.at(-1)} ${entries.length} times in a row?`;
    default:
      return "Pressure and boiler temperature disagree?";
  }
}

/** Pads stay open for a while; what is dated further back than this tells of a clock that was set, s. */
const BACK_S = 300;

function lateBy(entry: LogEntry, entries: readonly LogEntry[]): string | null {
  const latest = Math.max(...entries.filter((each) => each.id !== entry.id).map((each) => each.atS));
  const minutes = Math.round((latest - entry.atS) / 60);
  return latest - entry.atS > BACK_S ? `Dated ${minutes} min before the last entry: was a clock set?` : null;
}

/** So many times the most before is asked about (our choice); the sheet has no check of amounts. */
const MANY_TIMES = 5;

function amountDoubt(
  entry: Extract<LogEntry, { kind: "feed" | "fuel" }>,
  before: readonly LogEntry[],
): Doubt | null {
  // of feed its means, and of fuel what was put in
  const way = (each: LogEntry) => (each.kind === "feed" ? each.by : each.kind === "fuel" && each.action);
  const amount = (each: LogEntry) =>
    (each as typeof entry & { g?: number }).g ?? (each as typeof entry).ml ?? 0;
  const now = amount(entry);
  const usual = before
    .filter((each) => each.kind === entry.kind && way(each) === way(entry))
    .map(amount)
    .filter((each) => each > 0);
  const most = Math.max(...usual);
  if (way(entry) === "remaining" || usual.length < 2 || now <= MANY_TIMES * most) return null;
  const unit = entry.kind === "fuel" && entry.g !== undefined ? "g" : "ml";
  return {
    entryId: entry.id,
    words: `${reading(now, unit)}, when ${reading(most, unit)} was the most before?`,
  };
}

/** So near to its neighbour a number with its point put right must lie, in working pressures or ranges of the glass. */
const NEAR = { pressure: 0.4, level: 0.5 };

/** The same entry as it may have been meant, with the point put right; null where nothing suggests itself. */
export function meantBy(entry: LogEntry, entries: readonly LogEntry[], engine: Locomotive): LogEntry | null {
  if (entry.kind !== "pressure" && entry.kind !== "level") return null;
  const others = entries.filter((each) => each.kind === entry.kind && each.id !== entry.id);
  const beside = others.findLast((each) => each.atS <= entry.atS) ?? others[0];
  const range = engine.boiler.highestLevelMm - engine.boiler.lowestLevelMm;
  const slipped = (value: number, by: number, near: number) =>
    [value / 10, value * 10]
      .map((each) => Number(each.toPrecision(9)))
      .find((each) => each > 0 && Math.abs(each - by) <= near);
  if (entry.kind === "pressure" && isTenth(entry, entries, engine))
    return { ...entry, barG: Number((10 * entry.barG).toPrecision(9)) };
  if (entry.kind === "pressure" && beside?.kind === "pressure") {
    const barG = slipped(entry.barG, beside.barG, NEAR.pressure * engine.workingPressureBarG);
    return barG === undefined ? null : { ...entry, barG };
  }
  if (entry.kind === "level" && beside?.kind === "level") {
    const mm = slipped(entry.mm, beside.mm, NEAR.level * range);
    // nobody read it finer than the glass is divided
    const { levelDivisionMm } = footplate.value;
    return mm === undefined ? null : { ...entry, mm: levelDivisionMm * Math.round(mm / levelDivisionMm) };
  }
  return null;
}
