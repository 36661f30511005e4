import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import type { SteamingHead } from "../../../src/logbook/steaming.ts";
import type { SteamingRecord } from "../../outbox/database.ts";
import { saveCopy } from "../../outbox/logbook-copy.ts";
import { recordsOf } from "../../outbox/records.ts";
import { changeSteaming } from "../../outbox/steamings.ts";
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
  await changeSteaming(id, ({ finished, ...record }) => record);
  goTo(footplateAddress(id));
}

/** What was said to be over a moment ago: one tap takes it back. */
export function JustOver({ record: { id, head, engine } }: { record: SteamingRecord }) {
  const failure = useSignal("");
  const undo = () =>
    goOn(id).catch((error) => {
      failure.value = `Not done: ${String(error)}`;
    });
  return (
    <div class="just-over" role="status">
      <p>
        <strong>{engine.name}</strong> {begunWords(head)}, is over. {failure.value}
      </p>
      <button type="button" class="key" onClick={() => void undo()}>
        Undo<span class="sub">go on with it</span>
      </button>
    </div>
  );
}

function Over({ record: { id, head, engine, refused } }: { record: SteamingRecord }) {
  const said = useSignal("");
  useEffect(() => {
    const count = async () => {
      const records = await recordsOf(id);
      const unsent = records.filter((each) => each.pending !== undefined).length;
      const no = records.filter((each) => each.refused !== undefined && each.deleted !== true).length;
      const parts = [unsent > 0 && `${unsent} not sent yet`, (no > 0 || refused) && `${no || "all"} refused`];
      said.value = parts.filter(Boolean).join(", ");
    };
    count().catch(() => undefined);
  }, [id, refused, said]);
  const orWhy = (what: Promise<string | undefined>) =>
    void what.then(
      (words) => {
        said.value = words ?? "";
      },
      (error) => {
        said.value = `not done: ${String(error)}`;
      },
    );
  return (
    <li>
      <p>
        <strong>{engine.name}</strong> {begunWords(head)}
        <span role="status"> {said.value}</span>
      </p>
      <div class="actions">
        <button type="button" onClick={() => orWhy(goOn(id))}>
          Go on with it
        </button>
        <button type="button" onClick={() => orWhy(saveCopy(id))}>
          Save a copy
        </button>
      </div>
    </li>
  );
}
