import type { Steaming } from "../../src/logbook/steaming.ts";
import { backUp } from "./backup.ts";
import { changesIn } from "./changes.ts";
import { devicesIn } from "./devices.ts";
import { entriesIn } from "./entries.ts";
import { locomotivesIn } from "./locomotives.ts";
import { openDatabase } from "./open-database.ts";
import { plansIn } from "./plans.ts";
import { servicesIn } from "./services.ts";
import { settingsIn } from "./settings.ts";
import { steamingsIn } from "./steamings.ts";
import { tracesIn } from "./traces.ts";

/**
 * Everything the server keeps, one repository a resource. No SQL stands outside this folder.
 * @throws StoreError one line where the folder or the database cannot be used
 */
export function openStore(folder: string, now: () => Date = () => new Date()) {
  const database = openDatabase(folder);
  const changes = changesIn(database);
  const locomotives = locomotivesIn(database, changes);
  const steamings = steamingsIn(database, changes);
  const entries = entriesIn(database, steamings, now);
  const traces = tracesIn(database, steamings);
  return {
    changes,
    locomotives,
    steamings,
    entries,
    traces,
    services: servicesIn(database, changes),
    plans: plansIn(database),
    settings: settingsIn(database),
    devices: devicesIn(database, now),
    /** A steaming as the contract has it, or undefined. */
    wholeSteaming(id: string): Steaming | undefined {
      const kept = steamings.get(id);
      if (kept === undefined) return undefined;
      const own = traces.ofSteaming(id);
      return {
        ...kept.head,
        entries: entries.ofSteaming(id),
        ...(own.length > 0 ? { traces: own } : {}),
      };
    },
    /** Does several things wholly or, where one throws, not at all. */
    atOnce: <Result>(work: () => Result): Result => database.transaction(work)(),
    backUp: () => backUp(database, folder, now()),
    close: () => database.close(),
  };
}
export type Store = ReturnType<typeof openStore>;
