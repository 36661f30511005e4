import type { Locomotive } from "../../src/logbook/locomotive.ts";
import type { SteamingHead } from "../../src/logbook/steaming.ts";
import {
  type EntryRecord,
  inOneGo,
  type LogEntry,
  outbox,
  type RawTime,
  type SteamingRecord,
  shelf,
  strict,
} from "./database.ts";
import { onceMore } from "./reopening.ts";
import { tellTabs } from "./tab-channel.ts";
import { corrected, deleted, heard, sentAgain, toldAnew, toldSince, without } from "./versions.ts";

/** Begins a steaming on this phone. It is on the disk when this returns. */
export async function keepSteaming(head: SteamingHead, engine: Locomotive, raw: RawTime): Promise<void> {
  const steaming = { id: head.id, head, engine, raw, pending: "begin" } as const;
  await inOneGo(["steamings"], (steamings) => steamings.put(steaming), strict);
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
 * @param lost of which it has an older version and never had the one that stands here
 */
export async function takeUpSteaming(
  head: SteamingHead,
  engine: Locomotive,
  entries: readonly LogEntry[],
  before: ToldBefore,
  lost: ReadonlySet<string> = new Set(),
): Promise<void> {
  await inOneGo(["steamings", "entries"], async (steamings, store) => {
    const kept = await steamings.get(head.id);
    if (kept?.pending === undefined) {
      const { refused, ...rest } = kept ?? {};
      await steamings.put({ ...rest, id: head.id, head, engine, settled: true });
    }
    const own = await store.index("steamingId").getAll(head.id);
    const byId = new Map(own.map((record) => [record.id, record]));
    const isOlder = (record: EntryRecord) =>
      record.pending === undefined && before.get(record.id) === record.revision;
    for (const entry of entries) {
      const record = byId.get(entry.id);
      byId.delete(entry.id);
      if (record === undefined) await store.add(fromElsewhere(head.id, entry));
      else if (!isOlder(record) || record.refused !== undefined) continue;
      // an id that was deleted comes back only with a state from before it
      else if (record.deleted === true && record.raw !== undefined) await store.put(deleted(record));
      else await store.put((lost.has(entry.id) ? toldSince(record, entry) : null) ?? heard(record, entry));
    }
    for (const record of byId.values()) {
      if (!isOlder(record) || record.refused !== undefined || record.deleted === true) continue;
      // deleted elsewhere, or the server was brought back to a state before it: it is offered again, and a server that
      // deleted it says so. What another device wrote down is that one's to offer.
      await store.put(record.raw === undefined ? { ...record, deleted: true } : toldAnew(record));
    }
  });
  tellTabs({ what: "written", steamingId: head.id });
}

const fromElsewhere = (steamingId: string, entry: LogEntry): EntryRecord => ({
  id: entry.id,
  steamingId,
  entry,
  revision: 0,
  settled: true,
});

/** What is written down of an entry at the tap; `settled` where its time is not to be reckoned from the raw one. */
export type Tapped = Pick<EntryRecord, "steamingId" | "entry" | "settled" | "copied"> & { raw: RawTime };

/**
 * Writes an entry down. It is on the disk when this returns, once, whatever became of a first try.
 * @throws where the store takes nothing, even when opened anew
 */
export async function keepEntry(tapped: Tapped): Promise<EntryRecord> {
  const whole: EntryRecord = { ...tapped, id: tapped.entry.id, pending: "add", revision: 1 };
  const seq = await onceMore(async (again) => {
    if (again) outbox.forget();
    return inOneGo(
      ["entries"],
      async (store) => {
        const there = again ? await store.index("id").getKey(whole.id) : undefined;
        return (there as number | undefined) ?? (await store.add(whole));
      },
      strict,
    );
  });
  tellTabs({ what: "written", steamingId: tapped.steamingId });
  return { ...whole, seq };
}

/** Changes a record as it stands on the disk now; null where there is none. */
async function change(
  id: string,
  to: (record: EntryRecord) => EntryRecord | null,
): Promise<EntryRecord | null> {
  const changed = await inOneGo(
    ["entries"],
    async (store) => {
      const record = await store.index("id").get(id);
      const becomes = record === undefined ? null : to(record);
      if (becomes !== null) await store.put(becomes);
      return becomes;
    },
    strict,
  );
  if (changed !== null) tellTabs({ what: "written", steamingId: changed.steamingId });
  return changed;
}

/** Puts another content in place of an entry's; the former is kept with it, and told to the server before it. */
export const correctEntry = (id: string, entry: LogEntry) => change(id, (record) => corrected(record, entry));

/** Sends once more what the server refused. */
export const sendEntryAgain = (id: string) => change(id, sentAgain);

/**
 * Sends a steaming once more with all that stands in it: the server has it no more, or refused it.
 */
export async function beginAgain(steamingId: string): Promise<void> {
  await inOneGo(
    ["steamings", "entries"],
    async (steamings, entries) => {
      const kept = await steamings.get(steamingId);
      if (kept === undefined) return;
      const { refused, ...rest } = kept;
      await steamings.put({ ...rest, pending: "begin" });
      for (const record of await entries.index("steamingId").getAll(steamingId)) {
        if (record.deleted !== true) await entries.put(toldAnew(record));
      }
    },
    strict,
  );
  tellTabs({ what: "written", steamingId });
}

/**
 * Puts back what the last correction of an entry replaced; null where there was none. It is a correction of its own:
 * the one that it takes back may have reached the server already.
 */
export const uncorrectEntry = (id: string) =>
  change(id, (record) => {
    const before = record.former?.at(-1);
    return before === undefined ? null : corrected(record, before);
  });

export const deleteEntry = (id: string) => change(id, deleted);

/** Why it looks odd beside the others. */
export const raiseDoubt = (id: string, doubt: string) => change(id, (record) => ({ ...record, doubt }));

/** Somebody looked at it again: it is right. */
export const clearDoubt = (id: string) => change(id, (record) => without(record, "doubt"));

/** What the server's answer makes of a record that was sent. */
export interface Answered {
  sent: EntryRecord;
  becomes: (record: EntryRecord) => EntryRecord;
}

/** Takes the server's answers in. What was changed since it was sent stays as it is and is sent again. */
export async function takeAnswers(answers: readonly Answered[]): Promise<void> {
  await inOneGo(["entries"], async (store) => {
    for (const { sent, becomes } of answers) {
      const record = await store.index("id").get(sent.id);
      if (record?.revision === sent.revision) await store.put(becomes(record));
    }
  });
  for (const steamingId of new Set(answers.map(({ sent }) => sent.steamingId))) {
    tellTabs({ what: "written", steamingId });
  }
}

/** What another device has done to an entry; what is still to be sent from here goes before it. */
export const heardOfEntry = (steamingId: string, id: string, entry: LogEntry | null): Promise<boolean> =>
  inOneGo(["steamings", "entries"], async (steamings, store) => {
    const followed = (await steamings.get(steamingId)) !== undefined;
    const record = await store.index("id").get(id);
    if (followed && record === undefined && entry !== null) {
      await store.add(fromElsewhere(steamingId, entry));
      return true;
    }
    if (record === undefined || record.pending !== undefined) return false;
    await store.put(entry === null ? { ...record, deleted: true } : heard(record, entry));
    return true;
  });

const bySeq = (a: EntryRecord, b: EntryRecord) => (a.seq ?? 0) - (b.seq ?? 0);

/** All records of a steaming in the order in which they were written down, deleted ones too. */
export async function recordsOf(steamingId: string): Promise<EntryRecord[]> {
  return (await (await shelf("entries")).index("steamingId").getAll(steamingId)).sort(bySeq);
}

export async function unsent(): Promise<{ steamings: SteamingRecord[]; entries: EntryRecord[] }> {
  const transaction = (await outbox()).transaction(["steamings", "entries"]);
  const [steamings, entries] = await Promise.all([
    transaction.objectStore("steamings").index("pending").getAll(),
    transaction.objectStore("entries").index("pending").getAll(),
  ]);
  return { steamings, entries: entries.sort(bySeq) };
}

/** What the server has still to be told, and what it refused: neither is anywhere but here. */
export async function keptHereOnly(): Promise<{ waiting: number; refused: number }> {
  const transaction = (await outbox()).transaction(["steamings", "entries"]);
  const [steamings, entries] = [transaction.objectStore("steamings"), transaction.objectStore("entries")];
  const [begun, tapped, steamingsRefused, entriesRefused] = await Promise.all([
    steamings.index("pending").count(),
    entries.index("pending").count(),
    steamings.index("refused").count(),
    entries.index("refused").getAll(),
  ]);
  const refused = entriesRefused.filter((record) => record.deleted !== true).length;
  return { waiting: begun + tapped, refused: refused || steamingsRefused };
}
