import { outbox, type SteamingRecord, strict } from "./database.ts";

export const steamingRecord = async (id: string): Promise<SteamingRecord | undefined> =>
  (await outbox()).get("steamings", id);

/** Steamings that this phone records and that are not over, the latest first. */
export async function runningHere(): Promise<SteamingRecord[]> {
  const all = await (await outbox()).getAll("steamings");
  return all
    .filter((record) => record.finished !== true)
    .sort((a, b) => Date.parse(b.head.startedAt) - Date.parse(a.head.startedAt));
}

export async function changeSteaming(
  id: string,
  to: (record: SteamingRecord) => SteamingRecord,
): Promise<SteamingRecord | null> {
  const transaction = (await outbox()).transaction("steamings", "readwrite", strict);
  const record = await transaction.store.get(id);
  const changed = record === undefined ? null : to(record);
  if (changed !== null) await transaction.store.put(changed);
  await transaction.done;
  return changed;
}
