import type { Service } from "../../src/logbook/service.ts";
import type { Changes } from "./changes.ts";
import type { Kept } from "./locomotives.ts";
import type { Connection } from "./open-database.ts";
import { sameContent } from "./same-content.ts";

export function servicesIn(database: Connection, changes: Changes) {
  const one = database.prepare<[string], string>("SELECT body FROM services WHERE id = ?").pluck();
  const ofLocomotive = database
    .prepare<[string], string>("SELECT body FROM services WHERE locomotive_id = ? ORDER BY at_ms, id")
    .pluck();
  const insert = database.prepare<[string, string, number, string, string, number]>(
    "INSERT INTO services (id, locomotive_id, at_ms, fitting, body, demonstration) VALUES (?, ?, ?, ?, ?, ?)",
  );
  const removeDemonstration = database.prepare("DELETE FROM services WHERE demonstration = 1");

  return {
    ofLocomotive: (locomotiveId: string): Service[] =>
      (ofLocomotive.all(locomotiveId) as string[]).map((body) => JSON.parse(body) as Service),
    /** Keeps a service that is new; one that is there already is left as it is. */
    add: database.transaction((service: Service, demonstration = false): Kept => {
      const kept = one.get(service.id) as string | undefined;
      if (kept !== undefined) return sameContent(kept, service) ? "same" : "differs";
      const { id, locomotiveId, fittingId } = service;
      const body = JSON.stringify(service);
      insert.run(id, locomotiveId, Date.parse(service.at), fittingId, body, demonstration ? 1 : 0);
      changes.record("service-kept", { locomotiveId });
      return "added";
    }),
    removeDemonstration: (): void => void removeDemonstration.run(),
  };
}
