import { signal } from "@preact/signals";
import type { EntryRecord, LogEntry } from "./database.ts";
import { keepEntry, type Tapped } from "./records.ts";

/** What was tapped and could not be written to the phone's store: it is only in this page's memory. */
export const unkept = signal<readonly Tapped[]>([]);

/** Writes an entry down; where that fails it stays in memory, to be kept again. @throws what keeping throws */
export async function keepOrHold(tapped: Tapped): Promise<EntryRecord> {
  try {
    return await keepEntry(tapped);
  } catch (error) {
    if (!unkept.value.some(({ entry }) => entry.id === tapped.entry.id))
      unkept.value = [...unkept.value, tapped];
    throw error;
  }
}

/** Tries once more with all that is only in memory, in its order. @throws at the first that fails again */
export async function keepAgain(): Promise<EntryRecord[]> {
  const kept: EntryRecord[] = [];
  for (const tapped of unkept.value) {
    kept.push(await keepEntry(tapped));
    unkept.value = unkept.value.filter(({ entry }) => entry.id !== tapped.entry.id);
  }
  return kept;
}

/** The entries of a steaming that are only in memory, under the times that a copy of them has now. */
export function unkeptOf(steamingId: string, timeOf: (raw: Tapped["raw"]) => number): LogEntry[] {
  const held = unkept.value.map((tapped) => {
    if (tapped.steamingId !== steamingId || tapped.settled === true) return tapped;
    const atS = timeOf(tapped.raw);
    return { ...tapped, entry: { ...tapped.entry, atS }, copied: [...(tapped.copied ?? []), atS] };
  });
  unkept.value = held;
  return held.filter((tapped) => tapped.steamingId === steamingId).map(({ entry }) => entry);
}
