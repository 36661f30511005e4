import type { Logged } from "../../src/analysis/pressure/logged.ts";
import type { Entry, EntryKind } from "../../src/logbook/entry.ts";
import { stretches } from "../../src/logbook/timeline.ts";
import { asTaken, plain } from "../words/number.ts";
import { spanInWords } from "../words/time.ts";
import type { StripRow } from "./spec.ts";

/** A row of the strip with the word that its bars bear in the table. */
export interface DoneRow extends StripRow {
  spanWord: string;
}

const states: readonly { kind: EntryKind; on: string; name: string; spanWord: string }[] = [
  { kind: "fire", on: "lit", name: "fire", spanWord: "fire lit" },
  { kind: "blower", on: "on", name: "blower", spanWord: "blower on" },
  { kind: "regulator", on: "open", name: "regulator", spanWord: "regulator open" },
  { kind: "bypass", on: "open", name: "by-pass", spanWord: "by-pass open" },
  { kind: "valve", on: "lifts", name: "valve", spanWord: "safety valve lifted" },
];

const moments: readonly { kinds: readonly EntryKind[]; name: string }[] = [
  { kinds: ["fill"], name: "filled" },
  { kinds: ["feed"], name: "feed" },
  { kinds: ["strokes"], name: "strokes" },
  { kinds: ["fuel"], name: "fuel" },
  { kinds: ["lap"], name: "laps" },
  {
    kinds: ["drip", "look", "note", "blowdown", "drained", "temperature", "pull", "weight"],
    name: "noted",
  },
];

/** What the entries say was done, a row each; what was never entered has no row. */
export function doneRows(entries: readonly Entry[], endS: number): DoneRow[] {
  const bars = states.flatMap((state): DoneRow[] => {
    const changes = entries.flatMap((entry) =>
      entry.kind === state.kind && "state" in entry ? [{ atS: entry.atS, on: entry.state === state.on }] : [],
    );
    if (changes.length === 0) return [];
    return [{ name: state.name, spanWord: state.spanWord, spans: stretches(changes, endS), ticks: [] }];
  });
  const ticks = moments.flatMap(({ kinds, name }): DoneRow[] => {
    const at = entries.filter((entry) => kinds.includes(entry.kind)).map((entry) => entry.atS);
    return at.length === 0 ? [] : [{ name, spanWord: name, spans: [], ticks: at }];
  });
  return [...bars, ...ticks];
}

/**
 * @param laps as the report counts them: some write down a running count
 * @param logged what loggers wrote beside the entries
 */
export function doneSentence(
  entries: readonly Entry[],
  laps: number,
  logged: readonly Logged[] = [],
): string {
  const count = (kinds: readonly EntryKind[]) => entries.filter((entry) => kinds.includes(entry.kind)).length;
  const told = (times: number, one: string, many: string) =>
    times > 0 ? [`${times} ${times === 1 ? one : many}`] : [];
  const openings = entries.filter((entry) => entry.kind === "regulator" && entry.state === "open").length;
  const lifts = entries.filter((entry) => entry.kind === "valve" && entry.state === "lifts").length;
  const strokes = entries.reduce((sum, entry) => sum + (entry.kind === "strokes" ? entry.count : 0), 0);
  const parts = [
    ...told(count(["fill"]), "filling", "fillings"),
    ...fireLit(entries),
    ...told(laps, "lap", "laps"),
    ...told(openings, "opening of the regulator", "openings of the regulator"),
    ...told(count(["feed"]), "feed", "feeds"),
    ...told(lifts, "lift of the safety valve", "lifts of the safety valve"),
    ...told(strokes, "stroke of the pump", "strokes of the pump"),
    ...told(count(["blowdown"]), "blow-down", "blow-downs"),
    ...told(count(["drained"]), "draining", "drainings"),
    ...told(count(["fuel"]), "measure of the fuel", "measures of the fuel"),
    ...told(count(["drip"]), "drip caught", "drips caught"),
    ...told(count(["look"]), "look at a fitting", "looks at fittings"),
    ...told(count(READ), "reading", "readings"),
    ...logged.map(samplesInWords),
  ];
  return `What was done: ${parts.length > 0 ? parts.join(", ") : "nothing written down"}.`;
}

const READ: readonly EntryKind[] = ["pressure", "level", "weight", "temperature", "pull", "revolutions"];

function fireLit(entries: readonly Entry[]): string[] {
  const changes = entries.flatMap((entry) =>
    entry.kind === "fire" ? [{ atS: entry.atS, on: entry.state === "lit" }] : [],
  );
  const litS = stretches(changes, Math.max(...entries.map(({ atS }) => atS))).reduce(
    (sum, [fromS, toS]) => sum + toS - fromS,
    0,
  );
  return litS > 0 ? [`fire lit for ${spanInWords(litS)}`] : [];
}

const channelNames: Record<Logged["channel"], string> = {
  pressureBarG: "pressure",
  temperatureC: "temperature",
  levelMm: "water in the glass",
  massG: "weight",
};

/** "7500 samples of pressure over 25 min, 5 a second" */
function samplesInWords({ channel, samples, fromS, toS, everyS }: Logged): string {
  const over = toS > fromS ? ` over ${spanInWords(toS - fromS)}` : "";
  const rate = everyS === null ? "" : ` (${rateInWords(everyS)})`;
  return `${plain(samples, 0)} ${samples === 1 ? "sample" : "samples"} of ${channelNames[channel]} by a logger${over}${rate}`;
}

const rateInWords = (everyS: number): string =>
  everyS === 1
    ? "one a second"
    : everyS < 1
      ? `${asTaken(Number((1 / everyS).toPrecision(2)))} a second`
      : `one each ${asTaken(Number(everyS.toPrecision(3)))} s`;
