import type { Entry } from "../../src/logbook/entry.ts";
import type { Connection } from "./connection.ts";
import { sameContent } from "./same-content.ts";
import type { Steamings } from "./steamings.ts";

/** An entry as it is kept: always with an id. */
export type KeptEntry = Entry & { id: string };

/** What became of an entry that was given; `buried`: its id was deleted before and stays so. */
export type EntryKept = "added" | "same" | "corrected" | "differs" | "buried";

export interface FormerEntry {
  entryId: string;
  what: "corrected" | "deleted";
  /** null where an id was deleted that had not been seen */
  former: KeptEntry | null;
  at: string;
}

const fittingOf = (entry: Entry): string | null =>
  entry.kind === "drip" || entry.kind === "look" ? entry.fitting : null;

export function entriesIn(database: Connection, steamings: Steamings, now: () => Date) {
  const ofSteaming = database
    .prepare<[string], string>("SELECT body FROM entries WHERE steaming_id = ? ORDER BY seq")
    .pluck();
  const one = database
    .prepare<[string, string], string>("SELECT body FROM entries WHERE steaming_id = ? AND id = ?")
    .pluck();
  const lastS = database
    .prepare<[string], number | null>("SELECT max(at_s) FROM entries WHERE steaming_id = ?")
    .pluck();
  const insert = database.prepare<[string, string, number, string, string | null, string]>(
    "INSERT INTO entries (steaming_id, id, at_s, kind, fitting, body) VALUES (?, ?, ?, ?, ?, ?)",
  );
  const replace = database.prepare<[number, string, string | null, string, string, string]>(
    "UPDATE entries SET at_s = ?, kind = ?, fitting = ?, body = ? WHERE steaming_id = ? AND id = ?",
  );
  const remove = database.prepare<[string, string]>("DELETE FROM entries WHERE steaming_id = ? AND id = ?");
  const keepFormer = database.prepare<[string, string, string, string | null, string]>(
    "INSERT INTO entry_history (steaming_id, entry_id, what, former, at) VALUES (?, ?, ?, ?, ?)",
  );
  const history = database.prepare<
    [string],
    { entryId: string; what: "corrected" | "deleted"; former: string | null; at: string }
  >("SELECT entry_id AS entryId, what, former, at FROM entry_history WHERE steaming_id = ? ORDER BY seq");
  const buried = database
    .prepare<[string, string], 1>("SELECT 1 FROM buried_entries WHERE steaming_id = ? AND entry_id = ?")
    .pluck();
  const bury = database.prepare<[string, string]>(
    "INSERT OR IGNORE INTO buried_entries (steaming_id, entry_id) VALUES (?, ?)",
  );

  return {
    /** The entries of a steaming in the order in which they came. */
    ofSteaming: (steamingId: string): KeptEntry[] =>
      (ofSteaming.all(steamingId) as string[]).map((body) => JSON.parse(body) as KeptEntry),

    /** When the latest entry of a steaming was written down, s since its start; 0 where there is none. */
    lastS: (steamingId: string): number => (lastS.get(steamingId) as number | null) ?? 0,

    /** An entry as it is kept now, or undefined where it is not, or no more. */
    get(steamingId: string, entryId: string): KeptEntry | undefined {
      const body = one.get(steamingId, entryId) as string | undefined;
      return body === undefined ? undefined : (JSON.parse(body) as KeptEntry);
    },

    /** Keeps the entries that a new steaming came with; the change of the steaming itself tells of them. */
    addToNew: database.transaction((steamingId: string, entries: readonly KeptEntry[]): void => {
      for (const entry of entries) {
        insert.run(steamingId, entry.id, entry.atS, entry.kind, fittingOf(entry), JSON.stringify(entry));
      }
    }),

    /**
     * Keeps an entry once, however often it is sent. One with its id and other content is left as it is,
     * unless this is a correction: then the former version goes into the history.
     */
    put: database.transaction((steamingId: string, entry: KeptEntry, correction = false): EntryKept => {
      if (buried.get(steamingId, entry.id) !== undefined) return "buried";
      const kept = one.get(steamingId, entry.id) as string | undefined;
      if (kept !== undefined && sameContent(kept, entry)) return "same";
      if (kept !== undefined && !correction) return "differs";
      const body = JSON.stringify(entry);
      if (kept === undefined) {
        insert.run(steamingId, entry.id, entry.atS, entry.kind, fittingOf(entry), body);
        steamings.changed("entry-added", steamingId, entry.id);
        return "added";
      }
      keepFormer.run(steamingId, entry.id, "corrected", kept, now().toISOString());
      replace.run(entry.atS, entry.kind, fittingOf(entry), body, steamingId, entry.id);
      steamings.changed("entry-corrected", steamingId, entry.id);
      return "corrected";
    }),

    /** Deletes an entry and buries its id, seen before or not: a late copy of it is then refused. */
    remove: database.transaction((steamingId: string, entryId: string): void => {
      if (bury.run(steamingId, entryId).changes === 0) return;
      const kept = (one.get(steamingId, entryId) as string | undefined) ?? null;
      keepFormer.run(steamingId, entryId, "deleted", kept, now().toISOString());
      remove.run(steamingId, entryId);
      steamings.changed("entry-deleted", steamingId, entryId);
    }),

    /** What was corrected or deleted, oldest first. */
    history: (steamingId: string): FormerEntry[] =>
      history.all(steamingId).map((row) => ({
        ...row,
        former: row.former === null ? null : (JSON.parse(row.former) as KeptEntry),
      })),
  };
}
