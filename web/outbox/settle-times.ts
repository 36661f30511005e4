import { offsetOfEpoch, recallClock, unmeasuredEpoch } from "./clock.ts";
import { inOneGo, type RawTime } from "./database.ts";
import { restampedHead, secondsSince } from "./stamp.ts";
import { timed } from "./versions.ts";

/**
 * Which times may be settled: `sure` those of stretches of the phone's clock that were measured; `best` also those of
 * earlier ones that nobody can measure any more. A stretch that lasts and was not measured yet waits for the server.
 */
export type Settling = "sure" | "best";

function isReady(raw: RawTime, which: Settling): boolean {
  if (offsetOfEpoch(raw.epoch)?.sure === true) return true;
  return which === "best" && raw.epoch !== unmeasuredEpoch();
}

/**
 * Times of what is sent for the first time are reckoned once more from the raw ones, with what is known of the
 * server's clock by now, and stand from then on: what is sent twice must say the same.
 */
export async function settleTimes(which: Settling): Promise<void> {
  await recallClock();
  await inOneGo(["steamings", "entries"], async (steamings, entries) => {
    for (const record of await steamings.index("pending").getAll()) {
      if (record.settled === true) continue;
      if (record.raw !== undefined && !isReady(record.raw, which)) continue;
      await steamings.put({ ...restampedHead(record), settled: true });
    }
    for (const record of await entries.index("pending").getAll()) {
      if (record.settled === true) continue;
      const steaming = await steamings.get(record.steamingId);
      if (record.raw === undefined || steaming === undefined) await entries.put({ ...record, settled: true });
      else if (steaming.settled === true && isReady(record.raw, which)) {
        await entries.put(timed(record, secondsSince(steaming.head.startedAt, record.raw)));
      }
    }
  });
}
