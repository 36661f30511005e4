import type { Connection } from "./connection.ts";

export type ChangeKind =
  | "locomotive-kept"
  | "locomotive-removed"
  | "steaming-kept"
  | "steaming-removed"
  | "entry-added"
  | "entry-corrected"
  | "entry-deleted"
  | "traces-added"
  | "service-kept";

/** One line of the change table, which is only ever appended to: what happened, and to what. */
export interface Change {
  seq: number;
  what: ChangeKind;
  locomotiveId: string | null;
  steamingId: string | null;
  entryId: string | null;
  /** 1 where a steaming was kept that was not there before; 0 for all else */
  isNew: 0 | 1;
}

export type ChangeSubject = Partial<Pick<Change, "locomotiveId" | "steamingId" | "entryId">>;

export function changesIn(database: Connection) {
  const insert = database.prepare<[ChangeKind, string | null, string | null, string | null, 0 | 1]>(
    "INSERT INTO changes (what, locomotive_id, steaming_id, entry_id, is_new) VALUES (?, ?, ?, ?, ?)",
  );
  const after = database.prepare<[number, number], Change>(
    `SELECT seq, what, locomotive_id AS locomotiveId, steaming_id AS steamingId, entry_id AS entryId,
       is_new AS isNew
     FROM changes WHERE seq > ? ORDER BY seq LIMIT ?`,
  );
  const removed = database
    .prepare<[string], 1>("SELECT 1 FROM changes WHERE what = 'steaming-removed' AND steaming_id = ? LIMIT 1")
    .pluck();
  const last = database.prepare<[], number>("SELECT coalesce(max(seq), 0) FROM changes").pluck();
  const listeners = new Set<() => void>();
  let telling = false;

  /** Transactions end before the event loop turns, so by then the change is kept, or was put back. */
  function tellSoon(): void {
    if (telling || listeners.size === 0) return;
    telling = true;
    setImmediate(() => {
      telling = false;
      for (const listener of listeners) listener();
    });
  }

  return {
    /** Appends a change; its number serves as the revision of what was changed, as it is never used again. */
    record(what: ChangeKind, subject: ChangeSubject, isNew = false): number {
      const { locomotiveId = null, steamingId = null, entryId = null } = subject;
      tellSoon();
      return Number(insert.run(what, locomotiveId, steamingId, entryId, isNew ? 1 : 0).lastInsertRowid);
    },
    /** Changes after the given number, oldest first. */
    after: (seq: number, limit: number): Change[] => after.all(seq, limit),
    /** Whether a steaming was here once and was taken out. */
    wasRemoved: (steamingId: string): boolean => removed.get(steamingId) !== undefined,
    /** The number of the newest change; 0 where there is none. */
    last: (): number => Number(last.get()),
    /** Calls the listener after changes, once for several; what it returns ends that. */
    whenChanged(listener: () => void): () => void {
      listeners.add(listener);
      return () => void listeners.delete(listener);
    },
  };
}
export type Changes = ReturnType<typeof changesIn>;
