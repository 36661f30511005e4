import type { SteamingHead } from "../../src/logbook/steaming.ts";
import type { ChangeKind, Changes } from "./changes.ts";
import type { Connection } from "./connection.ts";
import type { Kept } from "./locomotives.ts";
import { sameContent } from "./same-content.ts";

export interface KeptSteaming {
  head: SteamingHead;
  demonstration: boolean;
  /** rises with every change of the head, the entries or the traces */
  revision: number;
  entries: number;
}

interface Row {
  head: string;
  demonstration: number;
  revision: number;
  entries: number;
}

const fromRow = (row: Row): KeptSteaming => ({
  head: JSON.parse(row.head) as SteamingHead,
  demonstration: row.demonstration === 1,
  revision: row.revision,
  entries: row.entries,
});

const columns = `head, demonstration, revision,
  (SELECT count(*) FROM entries WHERE entries.steaming_id = steamings.id) AS entries`;

export function steamingsIn(database: Connection, changes: Changes) {
  const all = database.prepare<[], Row>(`SELECT ${columns} FROM steamings ORDER BY started_at_ms, id`);
  const ofLocomotive = database.prepare<[string], Row>(
    `SELECT ${columns} FROM steamings WHERE locomotive_id = ? ORDER BY started_at_ms, id`,
  );
  const one = database.prepare<[string], Row>(`SELECT ${columns} FROM steamings WHERE id = ?`);
  const insert = database.prepare<[string, string, number, string, number, number]>(
    `INSERT INTO steamings (id, locomotive_id, started_at_ms, head, demonstration, revision)
     VALUES (?, ?, ?, ?, ?, ?)`,
  );
  const replace = database.prepare<[string, number, string, number, string]>(
    "UPDATE steamings SET locomotive_id = ?, started_at_ms = ?, head = ?, revision = ? WHERE id = ?",
  );
  const revise = database.prepare<[number, string]>("UPDATE steamings SET revision = ? WHERE id = ?");
  const remove = database.prepare<[string]>("DELETE FROM steamings WHERE id = ?");
  const ofDemonstration = database
    .prepare<[], string>("SELECT id FROM steamings WHERE demonstration = 1")
    .pluck();

  const put = database.transaction(
    (head: SteamingHead, mayReplace: boolean, demonstration: boolean): Kept => {
      const kept = one.get(head.id);
      if (kept !== undefined && sameContent(kept.head, head)) return "same";
      if (kept !== undefined && !mayReplace) return "differs";
      const { id, locomotiveId } = head;
      const startedAtMs = Date.parse(head.startedAt);
      const revision = changes.record("steaming-kept", { locomotiveId, steamingId: id }, kept === undefined);
      const body = JSON.stringify(head);
      if (kept !== undefined) {
        replace.run(locomotiveId, startedAtMs, body, revision, id);
        return "replaced";
      }
      insert.run(id, locomotiveId, startedAtMs, body, demonstration ? 1 : 0, revision);
      return "added";
    },
  );

  const removeOne = database.transaction((id: string): boolean => {
    if (remove.run(id).changes === 0) return false;
    changes.record("steaming-removed", { steamingId: id });
    return true;
  });

  return {
    all: (): KeptSteaming[] => all.all().map(fromRow),
    ofLocomotive: (locomotiveId: string): KeptSteaming[] => ofLocomotive.all(locomotiveId).map(fromRow),
    get(id: string): KeptSteaming | undefined {
      const row = one.get(id);
      return row === undefined ? undefined : fromRow(row);
    },
    /** Keeps the head of a steaming that is new; one that is there already is left as it is. */
    add: (head: SteamingHead, demonstration = false): Kept => put(head, false, demonstration),
    /** Keeps a head in place of the one with its id, if any; entries and traces stay. */
    put: (head: SteamingHead): Kept => put(head, true, false),
    /** Notes that something of the steaming has changed. */
    changed(what: ChangeKind, steamingId: string, entryId?: string): void {
      const subject = entryId === undefined ? { steamingId } : { steamingId, entryId };
      revise.run(changes.record(what, subject), steamingId);
    },
    /** Removes a steaming with all that belongs to it. False where there is none. */
    remove: removeOne,
    removeDemonstration: database.transaction((): void => {
      for (const id of ofDemonstration.all() as string[]) removeOne(id);
    }),
  };
}
export type Steamings = ReturnType<typeof steamingsIn>;
