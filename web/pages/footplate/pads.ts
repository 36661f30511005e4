import { glassReading, glassWords } from "../../../src/logbook/glass-reading.ts";
import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import type { LogEntry } from "../../outbox/database.ts";
import { footplate } from "../../preferences/footplate.ts";
import { fromShown, showing, toShown } from "../../preferences/shown.ts";
import { units } from "../../preferences/units.ts";
import { decimalsOf, digitsFor, type PadSpec } from "./pad-spec.ts";
import type { Content } from "./recorder.ts";

/** What a pad is made of, but for what is done with its value. */
export type Asking = Omit<PadSpec, "keep"> & { content: (value: number, meaning: string) => Content };

type Of<Kind extends LogEntry["kind"]> = Extract<LogEntry, { kind: Kind }>;
const lastOf = <Kind extends LogEntry["kind"]>(
  entries: readonly LogEntry[],
  kind: Kind,
  fits: (entry: Of<Kind>) => boolean = () => true,
): Of<Kind> | undefined =>
  entries.findLast((entry): entry is Of<Kind> => entry.kind === kind && fits(entry as Of<Kind>));

const rounded = (value: number): number => Number(value.toFixed(6));

export function pressureAsking(engine: Locomotive, entries: readonly LogEntry[]): Asking {
  const as = showing("bar");
  const step = footplate.value.pressureDivision[units.value.pressure];
  const last = lastOf(entries, "pressure")?.barG ?? null;
  return {
    title: "Pressure",
    unit: as.unit,
    decimals: decimalsOf(step),
    step,
    digits: digitsFor(toShown(1.6 * engine.workingPressureBarG, as), step),
    near: toShown(last || engine.workingPressureBarG, as),
    meanings: [{ value: "", name: "", last: last === null ? null : rounded(toShown(last, as)) }],
    meaning: "",
    content: (value) => ({ kind: "pressure", barG: fromShown(value, as) }),
  };
}

export function waterAsking(engine: Locomotive, entries: readonly LogEntry[]): Asking {
  const as = showing("mm");
  const step = as.factor === 1 ? footplate.value.levelDivisionMm : 0.05;
  const last = lastOf(entries, "level", (entry) => glassReading(entry) === "exact")?.mm ?? null;
  return {
    title: "Water in the glass",
    unit: as.unit,
    decimals: decimalsOf(step),
    step,
    digits: digitsFor(toShown(1.5 * engine.boiler.highestLevelMm, as), step),
    near: toShown(last || engine.boiler.highestLevelMm, as),
    meanings: [{ value: "exact", name: "", last: last === null ? null : rounded(toShown(last, as)) }],
    meaning: "exact",
    content: (value, read) => ({
      kind: "level",
      mm: fromShown(value, as),
      ...(read === "exact" ? {} : { note: glassWords[read as keyof typeof glassWords] }),
    }),
  };
}

const means = {
  bottle: "bottle",
  "hand-pump": "hand pump",
  "axle-pump": "axle pump",
  injector: "injector",
  fill: "filled, cold",
  drained: "drained",
} as const;
type Means = keyof typeof means;

/** Feed by its means, with filling before the fire and draining after it on the same pad; a hand pump in strokes. */
export function feedAsking(engine: Locomotive, entries: readonly LogEntry[]): Asking {
  const as = showing("ml");
  const perStroke = engine.handPump?.mlPerStroke;
  const byStrokes = (meaning: string) => meaning === "hand-pump" && perStroke !== undefined;
  const lastOfMeans = (meaning: Means): number | null => {
    if (meaning === "fill" || meaning === "drained") {
      const ml = lastOf(entries, meaning)?.ml;
      return ml === undefined ? null : rounded(toShown(ml, as));
    }
    const feed = lastOf(entries, "feed", (entry) => entry.by === meaning);
    if (feed === undefined) return null;
    return byStrokes(meaning) ? (feed.strokes ?? null) : rounded(toShown(feed.ml, as));
  };
  const meanings = (Object.keys(means) as Means[])
    .filter((each) => each !== "axle-pump" || engine.axlePump !== undefined)
    .filter((each) => each !== "hand-pump" || engine.handPump !== undefined)
    .map((value) => ({
      value,
      name: byStrokes(value) ? "hand pump, strokes" : means[value],
      last: lastOfMeans(value),
    }));
  const largest = Math.max(engine.waterTankMl ?? 0, 100);
  return {
    title: "Feed",
    unit: "",
    decimals: as.factor === 1 ? 0 : 1,
    step: as.factor === 1 ? 1 : 0.1,
    digits: digitsFor(toShown(largest, as), as.factor === 1 ? 1 : 0.1),
    meanings,
    meaning: likelyFeed(engine, entries),
    remark: (value, meaning) =>
      byStrokes(meaning)
        ? `strokes, ${rounded(toShown(value * (perStroke ?? 0), as)).toFixed(as.factor === 1 ? 0 : 2)} ${as.unit}`
        : `${as.unit}, ${means[meaning as Means]}`,
    content: (value, meaning) => {
      if (meaning === "fill" || meaning === "drained") return { kind: meaning, ml: fromShown(value, as) };
      const by = meaning as Exclude<Means, "fill" | "drained">;
      return byStrokes(by)
        ? { kind: "feed", ml: rounded(value * (perStroke ?? 0)), by, strokes: Math.round(value) }
        : { kind: "feed", ml: fromShown(value, as), by };
    },
  };
}

/** Before the fire she is filled, after it drained; between them as last time. */
function likelyFeed(engine: Locomotive, entries: readonly LogEntry[]): Means {
  const fire = lastOf(entries, "fire")?.state;
  if (fire === undefined && lastOf(entries, "fill") === undefined) return "fill";
  if (fire === "out") return "drained";
  return lastOf(entries, "feed")?.by ?? (engine.handPump === undefined ? "bottle" : "hand-pump");
}

const weighed = ["coal", "charcoal", "butane", "propane", "butane-propane-70-30"];

export function fuelAsking(engine: Locomotive, entries: readonly LogEntry[]): Asking {
  const before = lastOf(entries, "fuel");
  const inGrams = before === undefined ? weighed.includes(engine.fuel.kind) : before.g !== undefined;
  const as = showing(inGrams ? "g" : "ml");
  const decimals = inGrams ? (engine.fuel.kind === "coal" || engine.fuel.kind === "charcoal" ? 0 : 1) : 0;
  const last = (action: "added" | "remaining") => {
    const entry = lastOf(entries, "fuel", (each) => each.action === action);
    const amount = inGrams ? entry?.g : entry?.ml;
    return amount === undefined ? null : rounded(toShown(amount, as));
  };
  return {
    title: "Fuel",
    unit: as.unit,
    decimals,
    step: 10 ** -decimals,
    digits: digitsFor(toShown(Math.max(engine.fuel.tankMl ?? 0, 100), as), 10 ** -decimals),
    meanings: [
      { value: "added", name: "put in", last: last("added") },
      { value: "remaining", name: "left", last: last("remaining") },
    ],
    meaning: lastOf(entries, "fire")?.state === "out" ? "remaining" : "added",
    content: (value, meaning) => ({
      kind: "fuel",
      action: meaning === "remaining" ? "remaining" : "added",
      ...(inGrams ? { g: fromShown(value, as) } : { ml: fromShown(value, as) }),
    }),
  };
}

export const dripAsking = (fitting: string, name: string, overS: number): Asking => ({
  title: `Caught from ${name}`,
  unit: "g",
  decimals: 2,
  step: 0.01,
  digits: 4,
  meanings: [{ value: "", name: "", last: null }],
  meaning: "",
  remark: () => `in ${overS.toFixed(0)} s`,
  content: (value) => ({
    kind: "drip",
    fitting,
    g: value,
    overS: Math.max(0.1, Math.round(overS * 10) / 10),
  }),
});

export function temperatureAsking(entries: readonly LogEntry[]): Asking {
  const as = showing("°C");
  const last = (of: Of<"temperature">["of"]) => {
    const celsius = lastOf(entries, "temperature", (each) => each.of === of)?.celsius;
    return celsius === undefined ? null : rounded(toShown(celsius, as));
  };
  return {
    title: "Temperature",
    unit: as.unit,
    decimals: 0,
    step: 1,
    digits: 3,
    meanings: [
      { value: "feed", name: "feed", last: last("feed") },
      { value: "ambient", name: "air", last: last("ambient") },
      { value: "boiler", name: "boiler", last: last("boiler") },
      { value: "flue", name: "flue", last: last("flue") },
    ],
    meaning: "feed",
    content: (value, meaning) => ({
      kind: "temperature",
      of: meaning as Of<"temperature">["of"],
      celsius: fromShown(value, as),
    }),
  };
}

export const blowdownAsking = (entries: readonly LogEntry[]): Asking => {
  const as = showing("ml");
  const last = lastOf(entries, "blowdown")?.ml;
  return {
    title: "Blow-down",
    unit: as.unit,
    decimals: as.factor === 1 ? 0 : 1,
    step: as.factor === 1 ? 1 : 0.1,
    digits: 4,
    meanings: [{ value: "", name: "", last: last === undefined ? null : rounded(toShown(last, as)) }],
    meaning: "",
    content: (value) => ({ kind: "blowdown", ml: fromShown(value, as) }),
  };
};
