import type { EntryRecord, LogEntry } from "./database.ts";

/** All that an entry ever said, the first first. What stands is the last. */
const versionsOf = (record: EntryRecord): LogEntry[] => [...(record.former ?? []), record.entry];

/** How many of its versions the server has been told. */
function toldOf(record: EntryRecord): number {
  const allTold = record.pending === undefined && record.refused === undefined;
  return record.told ?? (allTold ? versionsOf(record).length : 0);
}

/** What the server is to be told next. */
export const nextVersion = (record: EntryRecord): LogEntry =>
  versionsOf(record)[toldOf(record)] ?? record.entry;

/** The server has been told of the version that was next: the one after it is, if there is one. */
export function told(record: EntryRecord): EntryRecord {
  const count = toldOf(record) + 1;
  const rest = without(record, "pending", "told", "refused");
  return count >= versionsOf(record).length ? rest : { ...rest, pending: "correct", told: count };
}

/** The server refused the version that was next: a later one mends it; where there is none, it is the owner's to mend. */
export function skipped(record: EntryRecord, why: string): EntryRecord {
  const after = told(record);
  if (after.pending !== undefined) return after;
  return { ...without(record, "pending"), told: toldOf(record), refused: why };
}

/** Another content in place of the entry's. Its time stays to be settled, unless the owner gave it another. */
export const corrected = (record: EntryRecord, entry: LogEntry): EntryRecord => {
  const count = toldOf(record);
  return {
    ...without(record, "refused", "doubt"),
    entry: { ...entry, id: record.id },
    former: versionsOf(record),
    told: count,
    pending: count === 0 ? "add" : "correct",
    revision: record.revision + 1,
  };
};

/** What another device has made of it, as the server tells. */
export function heard(record: EntryRecord, entry: LogEntry): EntryRecord {
  const now = { ...without(record, "pending", "told", "refused"), entry, deleted: false };
  return sameEntry(record.entry, entry) ? now : { ...now, former: versionsOf(record) };
}

/** Taken out here, and to be taken out at the server. */
export const deleted = (record: EntryRecord): EntryRecord => ({
  ...without(record, "refused", "doubt"),
  deleted: true,
  pending: "delete",
  revision: record.revision + 1,
});

/** To be sent again from where the telling stands. */
export const sentAgain = (record: EntryRecord): EntryRecord => ({
  ...without(record, "refused"),
  pending: record.deleted === true ? "delete" : toldOf(record) === 0 ? "add" : "correct",
  revision: record.revision + 1,
});

/** To be sent whole, from its first version on: the server has nothing of it. */
export const toldAnew = (record: EntryRecord): EntryRecord => ({
  ...without(record, "refused"),
  told: 0,
  pending: "add",
  revision: record.revision + 1,
});

/** To be told from after an older version that the server has; null where what it has is none. */
export function toldSince(record: EntryRecord, entry: LogEntry): EntryRecord | null {
  const versions = versionsOf(record);
  const count = versions.findLastIndex((version) => sameEntry(version, entry)) + 1;
  if (count === 0 || count === versions.length) return null;
  return { ...record, told: count, pending: "correct", revision: record.revision + 1 };
}

/** With the time of its tap settled, in every version whose time the owner did not change. */
export function timed(record: EntryRecord, atS: number): EntryRecord {
  const [first = record.entry, ...more] = versionsOf(record);
  const at = (version: LogEntry): LogEntry => (version.atS === first.atS ? { ...version, atS } : version);
  const versions = [first, ...more].map(at);
  return {
    ...record,
    entry: versions.at(-1) ?? record.entry,
    ...(record.former === undefined ? {} : { former: versions.slice(0, -1) }),
    settled: true,
  };
}

/** Whether two entries say the same, whatever the order of their keys. */
export function sameEntry(a: LogEntry, b: LogEntry): boolean {
  const text = (entry: LogEntry) =>
    JSON.stringify(Object.entries(entry).sort(([x], [y]) => (x < y ? -1 : 1)));
  return text(a) === text(b);
}

/** A copy without some of its optional parts: an absent one and one that is undefined are not the same on the disk. */
export function without<Key extends keyof EntryRecord>(record: EntryRecord, ...keys: Key[]): EntryRecord {
  const rest = { ...record };
  for (const key of keys) delete rest[key];
  return rest;
}
