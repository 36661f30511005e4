import { isSolid } from "../../../src/analysis/fuel/fuel-table.ts";
import { boilerGeometry } from "../../../src/boiler/geometry.ts";
import { glassReading, glassWords } from "../../../src/logbook/glass-reading.ts";
import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import type { LogEntry } from "../../outbox/database.ts";
import { footplate } from "../../preferences/footplate.ts";
import { fromShown, type Showing, showing, toShown } from "../../preferences/shown.ts";
import { units } from "../../preferences/units.ts";
import { reading } from "../../words/entry-words.ts";
import { type Meaning, type PadSpec, rounded } from "./pad-spec.ts";
import type { Content } from "./recorder.ts";
import { TEST_DIAL } from "./standing.ts";

/** What a pad is made of, but for what is done with its value. */
export type Asking = Omit<PadSpec, "keep"> & { content: (value: number, meaning: string) => Content };

type Of<Kind extends LogEntry["kind"]> = Extract<LogEntry, { kind: Kind }>;
const lastOf = <Kind extends LogEntry["kind"]>(
  entries: readonly LogEntry[],
  kind: Kind,
  fits: (entry: Of<Kind>) => boolean = () => true,
): Of<Kind> | undefined =>
  entries.findLast((entry): entry is Of<Kind> => entry.kind === kind && fits(entry as Of<Kind>));

const shownLast = (value: number | undefined, as: Showing): number | null =>
  value === undefined ? null : rounded(toShown(value, as));

/** The number is of one thing alone. */
const only = (rest: Omit<Meaning, "name" | "value"> & { name?: string }, value = ""): Meaning[] => [
  { value, name: "", ...rest },
];

/** What the dial goes to, in working pressures (our choice). */
const STEAM_DIAL = 1.6;

export function pressureAsking(
  engine: Locomotive,
  entries: readonly LogEntry[],
  isWaterTest: boolean,
): Asking {
  const as = showing("bar");
  const step = footplate.value.pressureDivision[units.value.pressure];
  const last = lastOf(entries, "pressure")?.barG;
  const dial = isWaterTest ? TEST_DIAL : STEAM_DIAL;
  const largest = toShown(dial * engine.workingPressureBarG, as);
  return {
    title: "Pressure",
    meanings: only({ unit: as.unit, last: shownLast(last, as), step, largest }),
    meaning: "",
    remark: () =>
      `for a dial to ${Number(largest.toPrecision(3))} ${as.unit}; finer with the point, higher by Change`,
    content: (value) => ({ kind: "pressure", barG: fromShown(value, as) }),
  };
}

export function waterAsking(engine: Locomotive, entries: readonly LogEntry[]): Asking {
  const as = showing("mm");
  const step = as.factor === 1 ? footplate.value.levelDivisionMm : 0.05;
  const last = lastOf(entries, "level", (entry) => glassReading(entry) === "exact")?.mm;
  return {
    title: "Water in the glass",
    meanings: only(
      {
        unit: as.unit,
        last: shownLast(last, as),
        step,
        largest: toShown(1.5 * engine.boiler.highestLevelMm, as),
      },
      "exact",
    ),
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
  blowdown: "blown down",
} as const;
type Means = keyof typeof means;

/** No feed, but an entry of its own kind. */
const isAtOnce = (meaning: Means): meaning is "fill" | "drained" | "blowdown" =>
  ["fill", "drained", "blowdown"].includes(meaning);

/** What the boiler holds to the brim, ml: nothing that goes into it or comes out of it at once is more. */
const boilerHoldsMl = ({ boiler }: Locomotive): number => 1e6 * boilerGeometry(boiler).totalM3;

/** Amounts are expected to have three figures, however small the boiler. */
const LEAST_LARGEST = 100;

/** Water by measure: the last of its kind, and no more at once than so much. */
const ofWater = (lastMl: number | undefined, largestMl: number) => {
  const as = showing("ml");
  const step = as.factor === 1 ? 1 : 0.1;
  return {
    unit: as.unit,
    last: shownLast(lastMl, as),
    step,
    largest: Math.max(LEAST_LARGEST * step, toShown(largestMl, as)),
  };
};

/** Three figures are typed; a larger amount has a key of its own. */
const TYPED_STEPS = 1000;

/** A further key of a meaning, for so many steps of it or all that follow; by its first word it is of the same thing. */
const from = (meant: Meaning, steps: number, many = Number.POSITIVE_INFINITY): Meaning[] => {
  const least = rounded(steps * meant.step);
  const largest = Math.min(meant.largest, least + (many - 1) * meant.step);
  const value = `${meant.value} ${least}`;
  return meant.largest < least
    ? []
    : [{ ...meant, value, name: `${meant.name} from ${least} ${meant.unit}`, last: null, least, largest }];
};
const firstWord = (meaning: string): string => meaning.split(" ")[0] ?? "";

/** Feed by its means, with filling before the fire, blowing down once it burns and draining after it; a hand pump in strokes. */
export function feedAsking(engine: Locomotive, entries: readonly LogEntry[]): Asking {
  const as = showing("ml");
  const perStroke = engine.handPump?.mlPerStroke;
  const byStrokes = (meaning: string) => meaning === "hand-pump" && perStroke !== undefined;
  const largestMl = Math.max(boilerHoldsMl(engine), engine.waterTankMl ?? 0);
  const ofMeans = (meaning: Means) => {
    if (isAtOnce(meaning)) return ofWater(lastOf(entries, meaning)?.ml, largestMl);
    const feed = lastOf(entries, "feed", (entry) => entry.by === meaning);
    if (!byStrokes(meaning)) return ofWater(feed?.ml, largestMl);
    const largest = Math.max(LEAST_LARGEST, largestMl / (perStroke ?? 1));
    return { unit: "strokes", last: feed?.strokes ?? null, step: 1, largest };
  };
  const stage = stageOf(entries);
  const wasLit = stage !== "cold";
  const offered: Partial<Record<Means, boolean>> = {
    "axle-pump": engine.axlePump !== undefined,
    "hand-pump": engine.handPump !== undefined,
    fill: !wasLit || lastOf(entries, "fill") === undefined,
    blowdown: wasLit,
  };
  const usual = likelyFeed(engine, entries);
  const meanings: Meaning[] = likely[stage]
    .filter((each) => offered[each] !== false)
    .map((value) => ({
      value,
      name: byStrokes(value) ? "hand pump, strokes" : means[value],
      ...ofMeans(value),
    }));
  return {
    title: "Feed",
    meanings: meanings.flatMap((meant) =>
      meant.value === usual ? [meant, ...from(meant, TYPED_STEPS)] : [meant],
    ),
    meaning: usual,
    remark: (value, meaning) =>
      byStrokes(meaning) ? reading(Math.round(value * (perStroke ?? 0)), "ml") : "",
    content: (value, chosen) => {
      const by = firstWord(chosen) as Means;
      if (isAtOnce(by)) return { kind: by, ml: fromShown(value, as) };
      return byStrokes(by)
        ? { kind: "feed", ml: rounded(value * (perStroke ?? 0)), by, strokes: Math.round(value) }
        : { kind: "feed", ml: fromShown(value, as), by };
    },
  };
}

/** Before, with and after the fire: what is likely then comes first; six have room, so what is not done then is left out. */
const likely: Record<"cold" | "lit" | "out", readonly Means[]> = {
  cold: ["fill", "hand-pump", "bottle", "drained", "axle-pump", "injector"],
  lit: ["bottle", "hand-pump", "axle-pump", "injector", "blowdown", "fill"],
  out: ["drained", "blowdown", "bottle", "hand-pump", "axle-pump", "fill"],
};
const stageOf = (entries: readonly LogEntry[]) => lastOf(entries, "fire")?.state ?? "cold";

/** Before the fire she is filled, after it drained; between them as last time. */
function likelyFeed(engine: Locomotive, entries: readonly LogEntry[]): Means {
  const stage = stageOf(entries);
  if (stage === "cold" && lastOf(entries, "fill") === undefined) return "fill";
  if (stage === "out") return "drained";
  return lastOf(entries, "feed")?.by ?? (engine.handPump === undefined ? "bottle" : "hand-pump");
}

/** Gas and solid fuels are weighed; what was measured last is measured again. */
const isWeighed = ({ kind }: Locomotive["fuel"]): boolean => kind !== "spirit" && kind !== "other";

/** So many steps have each a key of its own, once its ten is chosen. */
const SINGLY = 170;

/** Where it is not known what the tank holds: no fuel put in at once weighs more than half of what the boiler holds (our estimate). */
const FUEL_TO_BOILER = 0.5;

export function fuelAsking(engine: Locomotive, entries: readonly LogEntry[]): Asking {
  const before = lastOf(entries, "fuel");
  const inGrams = before === undefined ? isWeighed(engine.fuel) : before.g !== undefined;
  const as = showing(inGrams ? "g" : "ml");
  const last = (action: "added" | "remaining") => {
    const entry = lastOf(entries, "fuel", (each) => each.action === action);
    return shownLast(inGrams ? entry?.g : entry?.ml, as);
  };
  const lasts = { added: last("added"), remaining: last("remaining") };
  const mostOf = engine.fuel.tankMl ?? FUEL_TO_BOILER * boilerHoldsMl(engine);
  const most = Math.max(toShown(mostOf, as), lasts.added ?? 0, lasts.remaining ?? 0);
  // scales that show a tenth are used for what has three figures with it
  const isFine = inGrams ? most < LEAST_LARGEST && !isSolid(engine.fuel) : as.factor !== 1;
  const step = isFine ? 0.1 : 1;
  const ofAction = (action: "added" | "remaining", name: string) => ({
    value: action,
    name,
    unit: as.unit,
    last: lasts[action],
    step,
    largest: Math.max(LEAST_LARGEST * step, most),
  });
  const [added, remaining] = [ofAction("added", "put in"), ofAction("remaining", "left")] as const;
  const [usual, other] = stageOf(entries) === "out" ? [remaining, added] : [added, remaining];
  return {
    title: "Fuel",
    meanings: [added, remaining, ...from(other, SINGLY, SINGLY), ...from(usual, TYPED_STEPS)],
    meaning: usual.value,
    content: (value, meaning) => ({
      kind: "fuel",
      action: firstWord(meaning) === "remaining" ? "remaining" : "added",
      ...(inGrams ? { g: fromShown(value, as) } : { ml: fromShown(value, as) }),
    }),
  };
}

/** Strokes of the hand pump in a cold hold; the pressure that they reached is asked for next. */
export const strokesAsking = (entries: readonly LogEntry[]): Asking => ({
  title: "Pump strokes, cold",
  meanings: only({
    unit: "strokes",
    last: lastOf(entries, "strokes")?.count ?? null,
    step: 1,
    largest: LEAST_LARGEST,
  }),
  meaning: "",
  content: (count) => ({ kind: "strokes", count, barG: 0 }),
});

/** A leak that would empty the boiler within this fills no cup faster, s (our choice). */
const EMPTIED_WITHIN_S = 3600;
const CUP_G = 9.99;

export const dripAsking = (engine: Locomotive, fitting: string, name: string, overS: number): Asking => ({
  title: `Caught from ${name}`,
  meanings: only({
    unit: "g",
    last: null,
    step: 0.01,
    largest: Math.max(CUP_G, (boilerHoldsMl(engine) * overS) / EMPTIED_WITHIN_S),
  }),
  meaning: "",
  remark: () => `in ${overS.toFixed(0)} s`,
  content: (value) => ({
    kind: "drip",
    fitting,
    g: value,
    overS: Math.max(0.1, Math.round(overS * 10) / 10),
  }),
});

/** Where a thermometer is, and from where to where it is read, °C: two figures are typed, three are chosen. */
export const thermometers = {
  ambient: ["Air", 0, 94],
  "feed-water": ["Feed water", 0, 94],
  boiler: ["Boiler", 10, 179],
  flue: ["Flue", 0, 990],
} as const;
export type Thermometer = keyof typeof thermometers;

export function temperatureAsking(where: Thermometer, entries: readonly LogEntry[]): Asking {
  const as = showing("°C");
  const [name, fromC, toC] = thermometers[where];
  const of = where === "feed-water" ? "feed" : where;
  const largest = toShown(toC, as);
  return {
    title: `${name}, temperature`,
    meanings: only({
      name,
      unit: as.unit,
      last: shownLast(lastOf(entries, "temperature", (each) => each.of === of)?.celsius, as),
      step: 1,
      largest,
      ...(where === "ambient" ? { below: true as const } : {}),
      ...(largest < LEAST_LARGEST ? {} : { least: rounded(toShown(fromC, as)) }),
    }),
    meaning: "",
    content: (value) => ({ kind: "temperature", of, celsius: fromShown(value, as) }),
  };
}
