import { type Care, careOf } from "../src/care/care.ts";
import { isAhead } from "../src/care/yet-to-come.ts";
import type { Reports } from "./reports.ts";
import { noSuchLocomotive } from "./routes/locomotives.ts";
import type { Store } from "./store/store.ts";

/** The care of engines, remembered until the engine, a steaming or a service of it changes, or the day of a service comes. */
export function caresOf(store: Store, reports: Reports) {
  const remembered = new Map<string, { key: string; care: Care }>();

  return (locomotiveId: string): Care => {
    const engine = store.locomotives.get(locomotiveId);
    if (engine === undefined) throw noSuchLocomotive(locomotiveId);
    const steamings = store.steamings.ofLocomotive(locomotiveId);
    const services = store.services.ofLocomotive(locomotiveId);
    const revisions = steamings.map(({ head, revision }) => `${head.id} ${revision}`);
    const nowMs = Date.now();
    const ahead = services.filter((service) => isAhead(service, nowMs)).length;
    const key = [engine.revision, ahead, ...revisions, JSON.stringify(services)].join("\n");
    const before = remembered.get(locomotiveId);
    if (before?.key === key) return before.care;
    const records = steamings.flatMap(({ head }) => {
      const steaming = store.wholeSteaming(head.id);
      return steaming === undefined ? [] : [{ steaming, report: reports.report(head.id) }];
    });
    const care = careOf(engine.locomotive, records, services, nowMs);
    remembered.set(locomotiveId, { key, care });
    return care;
  };
}
