import type { Locomotive } from "../../src/logbook/locomotive.ts";
import type { SteamingHead } from "../../src/logbook/steaming.ts";
import {
  type EntryRecord,
  type LogEntry,
  outbox,
  type RawTime,
  type SteamingRecord,
  strict,
} from "./database.ts";
import { tellTabs } from "./tab-channel.ts";

/** Begins a steaming on this phone. It is on the disk when this returns. */
export async function keepSteaming(head: SteamingHead, engine: Locomotive, raw: RawTime): Promise<void> {
  const transaction = (await outbox()).transaction("steamings", "readwrite", strict);
  await transaction.store.put({ id: head.id, head, engine, raw, pending: "begin" });
  await transaction.done;
  tellTabs({ what: "written", steamingId: head.id });
}

/** Which version of each entry the server had been told of, before it was asked for its own. */
export type ToldBefore = ReadonlyMap<string, number>;

export async function toldBefore(steamingId: string): Promise<ToldBefore> {
  const told = (await recordsOf(steamingId)).filter((record) => record.pending === undefined);
  return new Map(told.map((record) => [record.id, record.revision]));
}

/**
 * Takes up a steaming that the server has, with the entries that it has. What was written or sent here since the
 * server was asked is newer than its answer and stays as it is.
 */
export async function takeUpSteaming(
  head: SteamingHead,
  engine: Locomotive,
  entries: readonly LogEntry[],
  before: ToldBefore,
): Promise<void> {
  const transaction = (await outbox()).transaction(["steamings", "entries"], "readwrite");
  const steamings = transaction.objectStore("steamings");
  const kept = await steamings.get(head.id);
  if (kept?.pending === undefined) {
    await steamings.put({ ...kept, id: head.id, head, engine, settled: true });
  }
  const store = transaction.objectStore("entries");
  const own = await store.index("steamingId").getAll(head.id);
  const byId = new Map(own.map((record) => [record.id, record]));
  const isOlder = (record: EntryRecord) =>
    record.pending === undefined && before.get(record.id) === record.revision;
  for (const entry of entries) {
    const record = byId.get(entry.id);
    byId.delete(entry.id);
    if (record === undefined) await store.add(fromElsewhere(head.id, entry));
    else if (isOlder(record)) await store.put({ ...record, entry, deleted: false });
  }
  // what the server had and has no more was deleted elsewhere
  for (const record of byId.values()) {
    if (isOlder(record) && record.refused === undefined) await store.put({ ...record, deleted: true });
  }
  await transaction.done;
  tellTabs({ what: "written", steamingId: head.id });
}

const fromElsewhere = (steamingId: string, entry: LogEntry): EntryRecord => ({
  id: entry.id,
  steamingId,
  entry,
  revision: 0,
  settled: true,
});

/** Writes an entry down. It is on the disk when this returns. */
export async function keepEntry(
  record: Pick<EntryRecord, "steamingId" | "entry"> & { raw: RawTime },
): Promise<EntryRecord> {
  const transaction = (await outbox()).transaction("entries", "readwrite", strict);
  const whole: EntryRecord = { ...record, id: record.entry.id, pending: "add", revision: 1 };
  const seq = await transaction.store.add(whole);
  await transaction.done;
  tellTabs({ what: "written", steamingId: record.steamingId });
  return { ...whole, seq };
}

/** Changes a record as it stands on the disk now; null where there is none. */
async function change(
  id: string,
  to: (record: EntryRecord) => EntryRecord | null,
): Promise<EntryRecord | null> {
  const transaction = (await outbox()).transaction("entries", "readwrite", strict);
  const record = await transaction.store.index("id").get(id);
  const changed = record === undefined ? null : to(record);
  if (changed !== null) await transaction.store.put(changed);
  await transaction.done;
  if (changed !== null) tellTabs({ what: "written", steamingId: changed.steamingId });
  return changed;
}

/** Puts another content in place of an entry's; the former is kept with it. */
export const correctEntry = (id: string, entry: LogEntry) =>
  change(id, (record) => ({
    ...without(record, "refused", "doubt"),
    entry: { ...entry, id },
    former: [...(record.former ?? []), record.entry],
    settled: true,
    pending: "correct",
    revision: record.revision + 1,
  }));

/** Puts back what the last correction of an entry replaced; null where there was none. */
export const uncorrectEntry = (id: string) =>
  change(id, (record) => {
    const before = record.former?.at(-1);
    if (before === undefined) return null;
    return {
      ...without(record, "refused", "doubt"),
      entry: before,
      former: record.former?.slice(0, -1) ?? [],
      pending: "correct",
      revision: record.revision + 1,
    };
  });

export const deleteEntry = (id: string) =>
  change(id, (record) => ({
    ...without(record, "refused", "doubt"),
    deleted: true,
    pending: "delete",
    revision: record.revision + 1,
  }));

/** Why it looks odd beside the others. */
export const raiseDoubt = (id: string, doubt: string) => change(id, (record) => ({ ...record, doubt }));

/** Somebody looked at it again: it is right. */
export const clearDoubt = (id: string) => change(id, (record) => without(record, "doubt"));

/** What the server told of a record that was sent: nothing more means that it is kept there. */
export interface Told {
  sent: EntryRecord;
  refused?: string;
  entry?: LogEntry;
  deleted?: true;
}

/** Takes the server's answers in. A record that was changed since it was sent is still to be sent. */
export async function settleEntries(answers: readonly Told[]): Promise<void> {
  const transaction = (await outbox()).transaction("entries", "readwrite");
  for (const { sent, ...told } of answers) {
    const record = await transaction.store.index("id").get(sent.id);
    if (record === undefined || record.revision !== sent.revision) continue;
    await transaction.store.put({ ...without(record, "pending"), ...told });
  }
  await transaction.done;
  for (const steamingId of new Set(answers.map(({ sent }) => sent.steamingId))) {
    tellTabs({ what: "written", steamingId });
  }
}

/** What another device has done to an entry; what is still to be sent from here goes before it. */
export async function heardOfEntry(steamingId: string, id: string, entry: LogEntry | null): Promise<boolean> {
  const database = await outbox();
  const transaction = database.transaction(["steamings", "entries"], "readwrite");
  const store = transaction.objectStore("entries");
  const followed = (await transaction.objectStore("steamings").get(steamingId)) !== undefined;
  const record = await store.index("id").get(id);
  let changed = false;
  if (followed && record === undefined && entry !== null) {
    await store.add(fromElsewhere(steamingId, entry));
    changed = true;
  } else if (record !== undefined && record.pending === undefined) {
    await store.put(entry === null ? { ...record, deleted: true } : { ...record, entry, deleted: false });
    changed = true;
  }
  await transaction.done;
  return changed;
}

const bySeq = (a: EntryRecord, b: EntryRecord) => (a.seq ?? 0) - (b.seq ?? 0);

/** All records of a steaming in the order in which they were written down, deleted ones too. */
export async function recordsOf(steamingId: string): Promise<EntryRecord[]> {
  return (await (await outbox()).getAllFromIndex("entries", "steamingId", steamingId)).sort(bySeq);
}

export async function unsent(): Promise<{ steamings: SteamingRecord[]; entries: EntryRecord[] }> {
  const transaction = (await outbox()).transaction(["steamings", "entries"]);
  const [steamings, entries] = await Promise.all([
    transaction.objectStore("steamings").index("pending").getAll(),
    transaction.objectStore("entries").index("pending").getAll(),
  ]);
  return { steamings, entries: entries.sort(bySeq) };
}

export async function unsentCount(): Promise<number> {
  const transaction = (await outbox()).transaction(["steamings", "entries"]);
  const counts = await Promise.all([
    transaction.objectStore("steamings").index("pending").count(),
    transaction.objectStore("entries").index("pending").count(),
  ]);
  return counts[0] + counts[1];
}

/** A copy without some of its optional parts: an absent one and one that is undefined are not the same on the disk. */
function without<Key extends keyof EntryRecord>(record: EntryRecord, ...keys: Key[]): EntryRecord {
  const rest = { ...record };
  for (const key of keys) delete rest[key];
  return rest;
}
