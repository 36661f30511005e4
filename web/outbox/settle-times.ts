import { outbox } from "./database.ts";
import { restampedHead, secondsSince } from "./stamp.ts";

/**
 * Times of what is sent for the first time are reckoned once more from the raw ones, with what is known of the
 * server's clock by now, and stand from then on: what is sent twice must say the same.
 */
export async function settleTimes(): Promise<void> {
  const transaction = (await outbox()).transaction(["steamings", "entries"], "readwrite");
  const steamings = transaction.objectStore("steamings");
  const entries = transaction.objectStore("entries");
  for (const record of await steamings.index("pending").getAll()) {
    if (record.settled !== true) await steamings.put({ ...restampedHead(record), settled: true });
  }
  for (const record of await entries.index("pending").getAll("add")) {
    if (record.settled === true) continue;
    const steaming = await steamings.get(record.steamingId);
    const atS =
      steaming === undefined || record.raw === undefined
        ? record.entry.atS
        : secondsSince(steaming.head.startedAt, record.raw);
    await entries.put({ ...record, entry: { ...record.entry, atS }, settled: true });
  }
  await transaction.done;
}
