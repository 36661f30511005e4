import type { Locomotive } from "../../src/logbook/locomotive.ts";
import type { SteamingHead } from "../../src/logbook/steaming.ts";
import { addresses } from "../api/addresses.ts";
import { call } from "../api/client.ts";
import type { LogEntry } from "./database.ts";
import { recordsOf, takeUpSteaming, toldBefore } from "./records.ts";
import { sameEntry, toldSince } from "./versions.ts";

/** What the server has of a steaming, taken up into the phone's own log. @throws Refusal */
export async function fetchSteaming(id: string): Promise<void> {
  type Whole = SteamingHead & { entries: LogEntry[]; traces?: unknown };
  const before = await toldBefore(id);
  const { entries, traces, ...head } = await call<Whole>("GET", addresses.steaming(id));
  const engine = await call<Locomotive>("GET", addresses.locomotive(head.locomotiveId));
  await takeUpSteaming(head, engine, entries, before, await lostThere(id, entries));
}

/**
 * Entries of which the server has an older version than stands here. Where its history has the one that stands here,
 * somebody put the older one back; else the server was brought back to it, and never heard of what came after.
 */
async function lostThere(steamingId: string, entries: readonly LogEntry[]): Promise<ReadonlySet<string>> {
  const theirs = new Map(entries.map((entry) => [entry.id, entry]));
  const lost = new Set<string>();
  for (const record of await recordsOf(steamingId)) {
    const entry = theirs.get(record.id);
    if (entry === undefined || record.pending !== undefined || toldSince(record, entry) === null) continue;
    const history = await call<{ former: LogEntry | null }[]>(
      "GET",
      `${addresses.entry(steamingId, record.id)}/history`,
    );
    if (!history.some(({ former }) => former !== null && sameEntry(former, record.entry)))
      lost.add(record.id);
  }
  return lost;
}
