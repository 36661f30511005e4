import type { Entry } from "../../src/logbook/entry.ts";
import type { SteamingRecord } from "./database.ts";
import { recordsOf } from "./records.ts";
import { settleTimes } from "./settle-times.ts";
import { steamingRecord } from "./steamings.ts";

/** A steaming as a logbook file with the ids that are sent, so that bringing it in and sending make no doubles. */
export async function logbookCopy(steamingId: string): Promise<{ name: string; text: string } | null> {
  // what stands in a file must be sent as it stands there
  await settleTimes();
  const steaming = await steamingRecord(steamingId);
  if (steaming === undefined) return null;
  const records = await recordsOf(steamingId);
  const entries = records.filter((record) => record.deleted !== true).map((record) => record.entry);
  return { name: fileName(steaming), text: asFile(steaming, entries) };
}

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

/** Hands a text to the browser as a file. */
export function saveFile(name: string, text: string): void {
  const address = URL.createObjectURL(new Blob([text], { type: "application/json" }));
  const link = document.createElement("a");
  link.href = address;
  link.download = name;
  link.click();
  URL.revokeObjectURL(address);
}
