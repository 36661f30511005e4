import type { Entry } from "../../src/logbook/entry.ts";
import { counted } from "../words/counted.ts";
import { type EntryRecord, inOneGo, type SteamingRecord, strict } from "./database.ts";
import { settleTimes } from "./settle-times.ts";
import { restampedHead, secondsSince } from "./stamp.ts";
import { unkeptOf } from "./unkept.ts";
import { timed } from "./versions.ts";

/**
 * A steaming as a logbook file with the ids that are sent, so that bringing it in and sending make no doubles. Times
 * that are sure stand in it as they will be sent. Where the phone's clock was not checked yet they are the best guess
 * and stay to be settled; the records remember under which times they were copied, so that what is sent later can
 * mend a copy that was brought in.
 */
export async function logbookCopy(steamingId: string): Promise<Copy> {
  await settleTimes("sure");
  return inOneGo(
    ["steamings", "entries"],
    async (steamings, store) => {
      const kept = await steamings.get(steamingId);
      if (kept === undefined) throw new Error("this phone has not got that steaming");
      const steaming = restampedHead(kept);
      const { startedAt } = steaming.head;
      if (kept.settled !== true) {
        const copied = [...new Set([...(kept.copied ?? []), startedAt])];
        await steamings.put({ ...kept, copied });
      }
      const entries: Entry[] = [];
      for (const record of await store.index("steamingId").getAll(steamingId)) {
        if (record.deleted === true) continue;
        const { entry } = atBest(record, startedAt);
        entries.push(entry);
        if (record.settled === true) continue;
        await store.put({ ...record, copied: [...new Set([...(record.copied ?? []), entry.atS])] });
      }
      return copyOf(steaming, [...entries, ...unkeptOf(steamingId, (raw) => secondsSince(startedAt, raw))]);
    },
    strict,
  );
}

/**
 * Hands a copy of a steaming to the browser as a file, with what is only in this page's memory.
 * @param otherwise what is known of it in memory, for a store that fails
 * @returns what was done, in words
 * @throws where the store fails and nothing else is known
 */
export async function saveCopy(
  steamingId: string,
  otherwise?: () => { steaming: SteamingRecord; entries: readonly Entry[] },
): Promise<string> {
  const copy = await logbookCopy(steamingId).catch((error: unknown) => {
    if (otherwise === undefined) throw error;
    const { steaming, entries } = otherwise();
    return copyOf(steaming, [
      ...entries,
      ...unkeptOf(steamingId, (raw) => secondsSince(steaming.head.startedAt, raw)),
    ]);
  });
  saveFile(copy.name, copy.text);
  return `a copy with ${counted(copy.entries, "entry", "entries")} is handed to the browser: ${copy.name}`;
}

interface Copy {
  name: string;
  text: string;
  entries: number;
}

const copyOf = (steaming: SteamingRecord, entries: readonly Entry[]): Copy => ({
  name: fileName(steaming),
  text: asFile(steaming, entries),
  entries: entries.length,
});

const atBest = (record: EntryRecord, startedAt: string): EntryRecord =>
  record.settled === true || record.raw === undefined
    ? record
    : timed(record, secondsSince(startedAt, record.raw));

function asFile({ head, engine }: SteamingRecord, entries: readonly Entry[]): string {
  return JSON.stringify({
    format: "lapwater-logbook",
    version: 1,
    locomotives: [engine],
    steamings: [{ ...head, entries: [...entries].sort((a, b) => a.atS - b.atS) }],
    services: [],
  });
}

const fileName = ({ engine, head }: SteamingRecord): string =>
  `${engine.name.replace(/[^\p{L}\p{N}]+/gu, "-")}-${head.startedAt.slice(0, 16).replace(":", "")}.logbook.json`;

const FETCHED_MS = 60_000;

/** Hands a text to the browser as a file. */
export function saveFile(name: string, text: string): void {
  const address = URL.createObjectURL(new Blob([text], { type: "application/json" }));
  const link = document.createElement("a");
  link.href = address;
  link.download = name;
  link.click();
  // some browsers fetch it only after the click has returned
  setTimeout(() => URL.revokeObjectURL(address), FETCHED_MS);
}
