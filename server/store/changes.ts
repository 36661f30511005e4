import type { Connection } from "./open-database.ts";

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
}

export type ChangeSubject = Partial<Pick<Change, "locomotiveId" | "steamingId" | "entryId">>;

export function changesIn(database: Connection) {
  const insert = database.prepare<[ChangeKind, string | null, string | null, string | null]>(
    "INSERT INTO changes (what, locomotive_id, steaming_id, entry_id) VALUES (?, ?, ?, ?)",
  );
  const after = database.prepare<[number, number], Change>(
    `SELECT seq, what, locomotive_id AS locomotiveId, steaming_id AS steamingId, entry_id AS entryId
     FROM changes WHERE seq > ? ORDER BY seq LIMIT ?`,
  );
  return {
    /** Appends a change; its number serves as the revision of what was changed, as it is never used again. */
    record(what: ChangeKind, subject: ChangeSubject): number {
      const { locomotiveId = null, steamingId = null, entryId = null } = subject;
      return Number(insert.run(what, locomotiveId, steamingId, entryId).lastInsertRowid);
    },
    /** Changes after the given number, oldest first. */
    after: (seq: number, limit: number): Change[] => after.all(seq, limit),
  };
}
export type Changes = ReturnType<typeof changesIn>;
