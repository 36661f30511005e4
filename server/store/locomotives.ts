import type { Locomotive } from "../../src/logbook/locomotive.ts";
import type { Changes } from "./changes.ts";
import type { Connection } from "./connection.ts";
import { sameContent } from "./same-content.ts";

export interface KeptLocomotive {
  locomotive: Locomotive;
  demonstration: boolean;
  /** rises with every change of the engine */
  revision: number;
}

export type Kept = "added" | "same" | "replaced" | "differs";

interface Row {
  body: string;
  demonstration: number;
  revision: number;
}

const fromRow = (row: Row): KeptLocomotive => ({
  locomotive: JSON.parse(row.body) as Locomotive,
  demonstration: row.demonstration === 1,
  revision: row.revision,
});

export function locomotivesIn(database: Connection, changes: Changes) {
  const all = database.prepare<[], Row>(
    "SELECT body, demonstration, revision FROM locomotives ORDER BY demonstration, rowid",
  );
  const one = database.prepare<[string], Row>(
    "SELECT body, demonstration, revision FROM locomotives WHERE id = ?",
  );
  const insert = database.prepare<[string, string, number, number]>(
    "INSERT INTO locomotives (id, body, demonstration, revision) VALUES (?, ?, ?, ?)",
  );
  const replace = database.prepare<[string, number, string]>(
    "UPDATE locomotives SET body = ?, revision = ? WHERE id = ?",
  );
  const remove = database.prepare<[string]>("DELETE FROM locomotives WHERE id = ?");
  const steamingsOf = database
    .prepare<[string], string>("SELECT id FROM steamings WHERE locomotive_id = ?")
    .pluck();
  const unmark = database.prepare<[string]>("UPDATE locomotives SET demonstration = 0 WHERE id = ?");
  const fittingsNamed = database
    .prepare<[string, string], string>(
      `SELECT fitting FROM services WHERE locomotive_id = ?
       UNION
       SELECT fitting FROM entries JOIN steamings ON steamings.id = entries.steaming_id
       WHERE steamings.locomotive_id = ? AND fitting IS NOT NULL`,
    )
    .pluck();

  const put = database.transaction(
    (locomotive: Locomotive, mayReplace: boolean, demonstration: boolean): Kept => {
      const kept = one.get(locomotive.id);
      if (kept !== undefined && sameContent(kept.body, locomotive)) return "same";
      if (kept !== undefined && !mayReplace) return "differs";
      const revision = changes.record("locomotive-kept", { locomotiveId: locomotive.id });
      const body = JSON.stringify(locomotive);
      if (kept !== undefined) {
        replace.run(body, revision, locomotive.id);
        return "replaced";
      }
      insert.run(locomotive.id, body, demonstration ? 1 : 0, revision);
      return "added";
    },
  );

  return {
    all: (): KeptLocomotive[] => all.all().map(fromRow),
    get(id: string): KeptLocomotive | undefined {
      const row = one.get(id);
      return row === undefined ? undefined : fromRow(row);
    },
    /** Keeps an engine that is new; one that is there already is left as it is. */
    add: (locomotive: Locomotive, demonstration = false): Kept => put(locomotive, false, demonstration),
    /** Keeps an engine in place of the one with its id, if any. */
    put: (locomotive: Locomotive): Kept => put(locomotive, true, false),
    /** Fittings that an entry or a service of this engine names, which therefore must stay. */
    fittingsNamed: (id: string): string[] => fittingsNamed.all(id, id) as string[],
    unmarkDemonstration: (id: string): void => void unmark.run(id),
    /** Removes the engine with its steamings and services. False where there is none. */
    remove: database.transaction((id: string): boolean => {
      const steamings = steamingsOf.all(id) as string[];
      if (remove.run(id).changes === 0) return false;
      for (const steamingId of steamings) changes.record("steaming-removed", { steamingId });
      changes.record("locomotive-removed", { locomotiveId: id });
      return true;
    }),
  };
}
