import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import type { SteamingHead } from "../../../src/logbook/steaming.ts";
import type { EntryRecord, SteamingRecord } from "../../outbox/database.ts";
import { saveCopy } from "../../outbox/logbook-copy.ts";
import { recordsOf } from "../../outbox/records.ts";
import { dropSteaming, goOnWith } from "../../outbox/steamings.ts";
import { footplateAddress, goTo } from "../../route.ts";
import { purposeNames } from "../../words/names.ts";
import { clockTime, dateInWords } from "../../words/time.ts";

/** "track trial, begun 3 June, 14:05" */
export const begunWords = ({
  title,
  purpose,
  startedAt,
}: Pick<SteamingHead, "title" | "purpose" | "startedAt">): string =>
  `${title ?? purposeNames[purpose]}, begun ${dateInWords(startedAt)}, ${clockTime(startedAt)}`;

/** Steamings that are over and still on this phone: each can go on, and be saved to a file. */
export function OverHere({ records }: { records: readonly SteamingRecord[] }) {
  if (records.length === 0) return null;
  return (
    <section class="ruled">
      <h2>Over, kept on this phone</h2>
      <ol class="record-list">
        {records.map((record) => (
          <Over key={record.id} record={record} />
        ))}
      </ol>
    </section>
  );
}

/** The recorder opens again where it stood. */
async function goOn(id: string): Promise<undefined> {
  await goOnWith(id);
  goTo(footplateAddress(id));
}

/** It is offered back at the head of the page. */
export async function drop(id: string): Promise<undefined> {
  await dropSteaming(id);
  goTo(`#/footplate?over=${id}`);
}

/** What this phone's own store has of a steaming, deleted records too; null until it is read. */
export function useRecordsOf(head: { id: string }): readonly EntryRecord[] | null {
  const records = useSignal<readonly EntryRecord[] | null>(null);
  useEffect(() => {
    recordsOf(head.id)
      .then((read) => {
        records.value = read;
      })
      .catch(() => undefined);
  }, [head, records]);
  return records.value;
}

/** Whether nothing stands in it, nor is to be told of it: then it may be dropped. */
export const isEmpty = (records: readonly EntryRecord[] | null): boolean =>
  records?.every(({ deleted, pending }) => deleted && !pending) === true;

/** Whether the server did not take what stands. */
export const isRefused = (record: EntryRecord): boolean =>
  record.refused !== undefined && record.deleted !== true;

/** What was said to be over, or dropped, a moment ago: one tap takes it back. */
export function JustOver({ record: { id, head, engine, dropped } }: { record: SteamingRecord }) {
  const failure = useSignal("");
  const undo = () =>
    goOn(id).catch((error) => {
      failure.value = `Not done: ${String(error)}`;
    });
  return (
    <div class="just-over" role="status">
      <p>
        <strong>{engine.name}</strong> {begunWords(head)}, is {dropped ? "dropped" : "over"}. {failure.value}
      </p>
      <button type="button" class="key" onClick={() => void undo()}>
        Undo<span class="sub">go on with it</span>
      </button>
    </div>
  );
}

function Over({ record: { id, head, engine, refused } }: { record: SteamingRecord }) {
  const records = useRecordsOf(head);
  const done = useSignal("");
  const orWhy = (what: Promise<string | undefined>) =>
    void what.then(
      (words = "") => {
        done.value = words;
      },
      (error) => {
        done.value = `not done: ${String(error)}`;
      },
    );
  const [word, what] = isEmpty(records) ? (["Drop it", drop] as const) : (["Save a copy", saveCopy] as const);
  const unsent = records?.filter(({ pending }) => pending !== undefined).length ?? 0;
  const no = records?.filter(isRefused).length ?? 0;
  const parts = [
    isEmpty(records) && "nothing written",
    unsent > 0 && `${unsent} not sent yet`,
    (no > 0 || refused) && `${no || "all"} refused`,
  ];
  return (
    <li>
      <p>
        <strong>{engine.name}</strong> {begunWords(head)}
        <span role="status"> {done.value || parts.filter(Boolean).join(", ")}</span>
      </p>
      <div class="actions">
        <button type="button" onClick={() => orWhy(goOn(id))}>
          Go on with it
        </button>
        <button type="button" onClick={() => orWhy(what(id))}>
          {word}
        </button>
      </div>
    </li>
  );
}
