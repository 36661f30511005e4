import type { Service } from "../../src/logbook/service.ts";
import type { Changes } from "./changes.ts";
import type { Connection } from "./connection.ts";
import type { Kept } from "./locomotives.ts";
import { sameContent } from "./same-content.ts";

export function servicesIn(database: Connection, changes: Changes) {
  const one = database.prepare<[string], string>("SELECT body FROM services WHERE id = ?").pluck();
  const ofLocomotive = database
    .prepare<[string], string>("SELECT body FROM services WHERE locomotive_id = ? ORDER BY at_ms, id")
    .pluck();
  const insert = database.prepare<[string, string, number, string, string, number]>(
    "INSERT INTO services (id, locomotive_id, at_ms, fitting, body, demonstration) VALUES (?, ?, ?, ?, ?, ?)",
  );
  const replace = database.prepare<[string, number, string, string, string]>(
    "UPDATE services SET locomotive_id = ?, at_ms = ?, fitting = ?, body = ? WHERE id = ?",
  );
  const remove = database
    .prepare<[string], string>("DELETE FROM services WHERE id = ? RETURNING locomotive_id")
    .pluck();
  const removeDemonstration = database.prepare("DELETE FROM services WHERE demonstration = 1");

  const put = database.transaction((service: Service, mayReplace: boolean, demonstration: boolean): Kept => {
    const kept = one.get(service.id) as string | undefined;
    if (kept !== undefined && sameContent(kept, service)) return "same";
    if (kept !== undefined && !mayReplace) return "differs";
    const { id, locomotiveId, fittingId } = service;
    const body = JSON.stringify(service);
    const atMs = Date.parse(service.at);
    changes.record("service-kept", { locomotiveId });
    if (kept !== undefined) {
      replace.run(locomotiveId, atMs, fittingId, body, id);
      return "replaced";
    }
    insert.run(id, locomotiveId, atMs, fittingId, body, demonstration ? 1 : 0);
    return "added";
  });

  return {
    ofLocomotive: (locomotiveId: string): Service[] =>
      (ofLocomotive.all(locomotiveId) as string[]).map((body) => JSON.parse(body) as Service),
    /** Keeps a service that is new; one that is there already is left as it is. */
    add: (service: Service, demonstration = false): Kept => put(service, false, demonstration),
    /** Keeps a service in place of the one with its id, if any. */
    put: (service: Service): Kept => put(service, true, false),
    /** False where there is none. To those who listen, services kept otherwise than before. */
    remove: database.transaction((id: string): boolean => {
      const locomotiveId = remove.get(id) as string | undefined;
      if (locomotiveId === undefined) return false;
      changes.record("service-kept", { locomotiveId });
      return true;
    }),
    removeDemonstration: (): void => void removeDemonstration.run(),
  };
}
