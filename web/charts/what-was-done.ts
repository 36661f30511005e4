import type { Entry, EntryKind } from "../../src/logbook/entry.ts";
import { stretches } from "../../src/logbook/timeline.ts";
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
  { kinds: ["feed", "fill"], name: "feed" },
  { kinds: ["fuel"], name: "fuel" },
  { kinds: ["lap"], name: "laps" },
  {
    kinds: ["drip", "look", "note", "blowdown", "drained", "temperature", "pull", "weight", "strokes"],
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

/** @param laps as the report counts them: some write down a running count */
export function doneSentence(entries: readonly Entry[], laps: number): string {
  const count = (kinds: readonly EntryKind[]) => entries.filter((entry) => kinds.includes(entry.kind)).length;
  const feeds = count(["feed"]);
  const valves = count(["regulator", "bypass", "blower"]);
  const parts = [
    laps > 0 ? `${laps} ${laps === 1 ? "lap" : "laps"}` : null,
    feeds > 0 ? `${feeds} ${feeds === 1 ? "feed" : "feeds"}` : null,
    valves > 0 ? `${valves} ${valves === 1 ? "turn" : "turns"} of a valve` : null,
  ].filter((part) => part !== null);
  return `What was done: ${parts.length > 0 ? parts.join(", ") : `${entries.length} entries`}.`;
}
