import { inOneGo, type Particulars, type SteamingRecord, shelf, strict } from "./database.ts";
import { tellTabs } from "./tab-channel.ts";

export const steamingRecord = async (id: string): Promise<SteamingRecord | undefined> =>
  (await shelf("steamings")).get(id);

/** Steamings that this phone records or recorded, the latest first. */
export async function steamingsHere(): Promise<SteamingRecord[]> {
  const all = await (await shelf("steamings")).getAll();
  return all.sort((a, b) => Date.parse(b.head.startedAt) - Date.parse(a.head.startedAt));
}

/** No fire is kept in for longer (our choice). */
const LONGEST_MS = 24 * 3_600_000;

/** Whether a steaming of this phone goes on. */
export const goesOn = ({ finished, dropped, head }: SteamingRecord, nowMs: number): boolean =>
  finished !== true && dropped !== true && nowMs - Date.parse(head.startedAt) < LONGEST_MS;

/** Whether there is one that goes on and of whose times the server has been told: later ones must be by the same clock. */
export const oneGoesOn = async (nowMs: number): Promise<boolean> =>
  (await steamingsHere()).some((record) => record.settled === true && goesOn(record, nowMs));

export const changeSteaming = (
  id: string,
  to: (record: SteamingRecord) => SteamingRecord,
): Promise<SteamingRecord | null> =>
  inOneGo(
    ["steamings"],
    async (store) => {
      const record = await store.get(id);
      const changed = record === undefined ? null : to(record);
      if (changed !== null) await store.put(changed);
      return changed;
    },
    strict,
  );

/** Takes out a steaming in which nothing stands; the server is told when it answers. */
export async function dropSteaming(id: string): Promise<void> {
  await changeSteaming(id, ({ refused, ...record }) => ({
    ...record,
    dropped: true,
    pending: "drop",
  }));
  tellTabs({ what: "written", steamingId: id });
}

/** One that was said to be over, or was dropped, goes on. */
export async function goOnWith(id: string): Promise<void> {
  await changeSteaming(id, ({ finished, dropped, ...record }) =>
    dropped === true ? { ...record, pending: "begin" } : record,
  );
  tellTabs({ what: "written", steamingId: id });
}

const particularNames = [
  "title",
  "purpose",
  "conditions",
  "track",
  "train",
  "notes",
] as const satisfies readonly (keyof Particulars)[];

/** A head with some of another's particulars in place of its own; what is absent there is absent then. */
export function withParticulars<Head extends Particulars>(
  head: Head,
  from: Partial<Particulars>,
  names: readonly (keyof Particulars)[],
): Head {
  const changed = { ...head };
  for (const name of names) {
    delete changed[name];
    if (from[name] !== undefined) Object.assign(changed, { [name]: from[name] });
  }
  return changed;
}

/** Which particulars of two heads are not the same. */
export const differing = (a: Partial<Particulars>, b: Partial<Particulars>): (keyof Particulars)[] =>
  particularNames.filter((name) => JSON.stringify(a[name]) !== JSON.stringify(b[name]));

/**
 * Changes particulars of a steaming that was begun; the server is told when it answers.
 * @param from as they stood where they were changed: what has come from elsewhere since stays
 */
export async function changeParticulars(
  id: string,
  from: Particulars,
  to: Particulars,
): Promise<SteamingRecord | null> {
  const changed = await changeSteaming(id, ({ refused, ...record }) => {
    const names = differing(from, to);
    if (names.length === 0 && refused === undefined) return record;
    return {
      ...record,
      head: withParticulars(record.head, to, names),
      pending: record.pending ?? "change",
      changed: [...new Set([...(record.changed ?? []), ...names])],
    };
  });
  tellTabs({ what: "written", steamingId: id });
  return changed;
}
