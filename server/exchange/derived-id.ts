import { createHash } from "node:crypto";
import type { Entry } from "../../src/logbook/entry.ts";
import type { KeptEntry } from "../store/entries.ts";

/**
 * The entries of a steaming, each with an id. One that came without gets an id made of the steaming, of what the
 * entry says and of how many like it stand before it: the same file read twice gives the same ids, and an entry
 * put in between later does not shift the others'.
 */
export function withIds(steamingId: string, entries: readonly Entry[]): KeptEntry[] {
  const taken = new Set(entries.map((entry) => entry.id));
  const seen = new Map<string, number>();
  return entries.map((entry) => {
    if (entry.id !== undefined) return { ...entry, id: entry.id };
    const content = JSON.stringify(entry, Object.keys(entry).sort());
    let before = seen.get(content) ?? 0;
    let id = derivedId(steamingId, content, before);
    while (taken.has(id)) id = derivedId(steamingId, content, ++before);
    seen.set(content, before + 1);
    return { ...entry, id };
  });
}

const derivedId = (steamingId: string, content: string, before: number): string =>
  `derived-${createHash("sha256").update(`${steamingId}\0${content}\0${before}`).digest("hex").slice(0, 24)}`;
