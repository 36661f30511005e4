import { computed, type ReadonlySignal, signal } from "@preact/signals";
import type { Entry } from "../../../src/logbook/entry.ts";
import { newId } from "../../api/new-id.ts";
import { rawNow } from "../../outbox/clock.ts";
import type { EntryRecord, LogEntry, Particulars, RawTime, SteamingRecord } from "../../outbox/database.ts";
import { saveCopy } from "../../outbox/logbook-copy.ts";
import {
  clearDoubt,
  correctEntry,
  deleteEntry,
  raiseDoubt,
  recordsOf,
  sendEntryAgain,
  type Tapped,
  uncorrectEntry,
} from "../../outbox/records.ts";
import { secondsSince } from "../../outbox/stamp.ts";
import { changeParticulars, steamingRecord } from "../../outbox/steamings.ts";
import { hearTabs } from "../../outbox/tab-channel.ts";
import { keepAgain, keepOrHold, unkept } from "../../outbox/unkept.ts";
import { entryInWords } from "../../words/entry-words.ts";
import { doubtOf } from "./doubt.ts";
import { buzz, tickSound } from "./signals.ts";

type WithoutHead<E> = E extends Entry ? Omit<E, "id" | "atS"> : never;
/** What an entry says, without its time and name. */
export type Content = WithoutHead<Entry>;

/** What the foot of the page says: what was kept last, or what went wrong. */
export interface Said {
  words: string;
  grade: "done" | "danger";
  /** which of the things said here, so that two alike are not taken for one */
  number: number;
}

export interface Recorder {
  steaming: ReadonlySignal<SteamingRecord>;
  records: ReadonlySignal<readonly EntryRecord[]>;
  /** what stands, in order of time */
  entries: ReadonlySignal<readonly LogEntry[]>;
  said: ReadonlySignal<Said | null>;
  say(words: string, grade?: Said["grade"]): void;
  keep(content: Content, raw?: RawTime): Promise<void>;
  correct(id: string, entry: LogEntry): Promise<void>;
  remove(record: EntryRecord): Promise<void>;
  putBack(record: EntryRecord): Promise<void>;
  /** what an undo takes back; null: nothing */
  undoes: ReadonlySignal<EntryRecord | null>;
  /** that it is a change of it which is taken back, and not the entry */
  undoesChange: ReadonlySignal<boolean>;
  /** the last change of an entry, by what stood before it; else the last thing written down here */
  undo(): Promise<void>;
  itIsRight(id: string): Promise<void>;
  /** what the server refused goes once more */
  sendAgain(record: EntryRecord): Promise<void>;
  /** tries once more with what could not be written to the phone's store */
  keepUnkept(): Promise<void>;
  /** other particulars of the steaming itself, such as its track; sent when the server answers */
  changeParticulars(from: Particulars, to: Particulars): Promise<void>;
  saveCopy(): Promise<void>;
  stop(): void;
}

/** The state of one steaming on this phone, and what may be done to it. Everything is on the disk before it is said to be kept. */
export async function openRecorder(first: SteamingRecord): Promise<Recorder> {
  const steaming = signal(first);
  const records = signal<readonly EntryRecord[]>(await recordsOf(first.id));
  const said = signal<Said | null>(null);
  const written = () =>
    records.value.filter((record) => record.deleted !== true).map((record) => record.entry);
  const entries = computed(() => written().sort((a, b) => a.atS - b.atS));
  const inWords = (entry: LogEntry) => entryInWords(entry, steaming.value.engine);

  let reading: ReturnType<typeof setTimeout> | undefined;
  const stop = hearTabs((word) => {
    if (word.what !== "written" || word.steamingId !== first.id) return;
    clearTimeout(reading);
    reading = setTimeout(async () => {
      const [all, head] = await Promise.all([recordsOf(first.id), steamingRecord(first.id)]);
      records.value = all;
      if (head !== undefined) steaming.value = head;
    }, 40);
  });

  const say = (words: string, grade: Said["grade"] = "done") => {
    said.value = { words, grade, number: (said.peek()?.number ?? 0) + 1 };
  };
  /** Does it, or says loudly that it was not done. */
  const doing = async (what: () => Promise<void>, not = "NOT kept") => {
    try {
      await what();
    } catch (error) {
      const why = error instanceof Error ? error.message : String(error);
      say(`${not}: ${why}`, "danger");
      buzz([200, 100, 200]);
    }
  };
  const replace = (changed: EntryRecord | null) => {
    if (changed === null) return;
    records.value = records.value.map((record) => (record.id === changed.id ? changed : record));
  };

  /** the entry that was corrected since the last one was written down */
  const corrected = signal<string | null>(null);
  const undoes = computed(
    () =>
      records.value.find((record) => record.id === corrected.value && isChanged(record)) ??
      records.value.findLast((record) => record.raw !== undefined && record.deleted !== true) ??
      null,
  );

  const stands = (record: EntryRecord) => {
    if (!records.value.some(({ id }) => id === record.id)) records.value = [...records.value, record];
  };
  const keepTapped = (tapped: Omit<Tapped, "steamingId">, back = false) =>
    doing(async () => {
      const { entry, raw } = tapped;
      stands(await keepOrHold({ ...tapped, steamingId: first.id }));
      corrected.value = null;
      // "lap 19", "pressure 3.6 bar"
      const name = entry.kind === "lap" ? `lap ${lapsOf(entries.value)}` : inWords(entry);
      say(back ? `${name} put back` : `${name} kept ${new Date(raw.phoneMs).toTimeString().slice(0, 8)}`);
      tickSound();
      buzz(25);
      if (unkept.value.length > 0) await keepUnkept();
      await question(entry);
    });
  const keepUnkept = () =>
    doing(async () => {
      const again = await keepAgain();
      const own = again.filter((record) => record.steamingId === first.id);
      own.forEach(stands);
      const [one] = own;
      if (one === undefined) return;
      const words = own.length === 1 ? inWords(one.entry) : `${own.length} more entries`;
      say(`${words} kept now`);
    });
  /** Asked once it is kept: what is looked into then does not hold up the tap. */
  const question = async (entry: LogEntry) => {
    const doubt = doubtOf(entry, written(), steaming.value);
    if (doubt === null) return;
    replace(await raiseDoubt(doubt.entryId, doubt.words));
    buzz([60, 60, 60]);
  };

  const remove = (record: EntryRecord) =>
    doing(async () => {
      replace(await deleteEntry(record.id));
      say(`${inWords(record.entry)} taken out`);
    });

  return {
    steaming,
    records,
    entries,
    said,
    say,
    keep: (content, raw = rawNow()) => {
      const atS = secondsSince(steaming.value.head.startedAt, raw);
      return keepTapped({ entry: { ...content, id: newId(raw.phoneMs), atS } as LogEntry, raw });
    },
    correct: (id, entry) =>
      doing(async () => {
        replace(await correctEntry(id, entry));
        corrected.value = id;
        say(`corrected to ${inWords(entry)}`);
      }),
    remove,
    undoes,
    undoesChange: computed(() => corrected.value !== null && undoes.value?.id === corrected.value),
    undo: async () => {
      const record = undoes.peek();
      if (record === null) return;
      if (record.id !== corrected.peek()) return remove(record);
      return doing(async () => {
        const before = await uncorrectEntry(record.id);
        replace(before);
        corrected.value = null;
        if (before === null) return;
        say(`back to ${inWords(before.entry)}`);
        await question(before.entry);
      });
    },
    putBack: (record) => {
      // at the time that it stood at: one that was never sent is still to be set right with its raw time
      const [{ atS: tappedS } = record.entry] = record.former ?? [];
      const toSettle = record.settled !== true && record.raw !== undefined && record.entry.atS === tappedS;
      const entry = { ...record.entry, id: newId() };
      const raw = record.raw ?? rawNow();
      return keepTapped({ entry, raw, ...(toSettle ? {} : { settled: true }) }, true);
    },
    itIsRight: (id) => doing(async () => replace(await clearDoubt(id))),
    sendAgain: (record) =>
      doing(async () => {
        replace(await sendEntryAgain(record.id));
        say(`${inWords(record.entry)} is sent again`);
      }),
    keepUnkept,
    saveCopy: () =>
      doing(
        async () =>
          say(await saveCopy(first.id, () => ({ steaming: steaming.value, entries: entries.value }))),
        "NO copy saved",
      ),
    changeParticulars: (from, to) =>
      doing(async () => {
        const changed = await changeParticulars(first.id, from, to);
        if (changed !== null) steaming.value = changed;
        say("particulars kept");
      }),
    stop,
  };
}

const isChanged = ({ former, deleted }: EntryRecord): boolean =>
  deleted !== true && former !== undefined && former.length > 0;

export const lapsOf = (entries: readonly LogEntry[]): number =>
  entries.reduce((sum, entry) => sum + (entry.kind === "lap" ? entry.count : 0), 0);
