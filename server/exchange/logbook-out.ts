import type { Store } from "../store/store.ts";

/**
 * The logbook as the text of a file, piece by piece (one steaming at a time in memory): all of it, or of one
 * engine. Steamings that vanish or move to another engine meanwhile are left out.
 */
export function* takeOut(store: Store, locomotiveId?: string): Generator<string> {
  const all = store.locomotives.all().map((kept) => kept.locomotive);
  const locomotives = all.filter((engine) => locomotiveId === undefined || engine.id === locomotiveId);
  const services = locomotives.flatMap((engine) => store.services.ofLocomotive(engine.id));
  const steamings = locomotives.flatMap((engine) => store.steamings.ofLocomotive(engine.id));
  yield `{"format":"lapwater-logbook","version":1,\n"locomotives":${JSON.stringify(locomotives)},\n"steamings":[`;
  let separator = "\n";
  for (const { head } of steamings) {
    const steaming = store.wholeSteaming(head.id);
    if (steaming?.locomotiveId !== head.locomotiveId) continue;
    yield `${separator}${JSON.stringify(steaming)}`;
    separator = ",\n";
  }
  yield `],\n"services":${JSON.stringify(services)}}\n`;
}
