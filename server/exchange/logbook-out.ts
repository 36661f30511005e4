import type { Store } from "../store/store.ts";

/**
 * The logbook as the text of a file, piece by piece (one steaming at a time in memory): all of it, or of one
 * engine. Steamings that vanish meanwhile are left out; whatever is in it refers to what is in it.
 */
export function* takeOut(store: Store, locomotiveId?: string): Generator<string> {
  const wanted = (id: string) => locomotiveId === undefined || id === locomotiveId;
  const locomotives = store.locomotives
    .all()
    .map((kept) => kept.locomotive)
    .filter((locomotive) => wanted(locomotive.id));
  const services = store.services.all().filter((service) => wanted(service.locomotiveId));
  const ids = store.steamings.all().flatMap(({ head }) => (wanted(head.locomotiveId) ? [head.id] : []));
  yield `{"format":"lapwater-logbook","version":1,\n"locomotives":${JSON.stringify(locomotives)},\n"steamings":[`;
  let separator = "\n";
  for (const id of ids) {
    const steaming = store.wholeSteaming(id);
    if (steaming === undefined || !locomotives.some((engine) => engine.id === steaming.locomotiveId))
      continue;
    yield `${separator}${JSON.stringify(steaming)}`;
    separator = ",\n";
  }
  yield `],\n"services":${JSON.stringify(services)}}\n`;
}
