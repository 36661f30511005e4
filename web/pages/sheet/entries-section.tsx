import { type Signal, useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import type { Entry } from "../../../src/logbook/entry.ts";
import { addresses } from "../../api/addresses.ts";
import { asRefusal, call, type Refusal } from "../../api/client.ts";
import { newId } from "../../api/new-id.ts";
import type { Sheet } from "../../api/shapes.ts";
import { mayWrite } from "../../api/token.ts";
import { Notice } from "../../parts/notice.tsx";
import { Refused } from "../../parts/refused.tsx";
import { entryInWords } from "../../words/entry-words.ts";
import { clockOf } from "../../words/time.ts";
import { EntriesTable } from "./entries-table.tsx";
import { EntryForm } from "./entry-form.tsx";
import { TakenOutEntries } from "./taken-out-entries.tsx";

interface Properties {
  sheet: Sheet;
  reload: () => Promise<unknown>;
  pointedAt: Signal<string | null>;
}

/** What was written down: typed in, corrected and deleted here. */
export function EntriesSection({ sheet, reload, pointedAt }: Properties) {
  const { steaming, locomotive, entries } = sheet;
  const adding = useSignal(entries.length === 0);
  const said = useSignal<string | null>(null);
  const deleted = useSignal<Entry | null>(null);
  const refusal = useSignal<Refusal | null>(null);

  const act = async (what: () => Promise<void>) => {
    refusal.value = null;
    try {
      await what();
      await reload();
    } catch (error) {
      refusal.value = asRefusal(error);
    }
  };
  const remove = (entry: Entry) =>
    act(async () => {
      if (entry.id === undefined) return;
      await call("DELETE", addresses.entry(steaming.id, entry.id));
      said.value = null;
      deleted.value = entry;
    });
  /** a deleted entry's id is not taken again, so it comes back under a new one */
  const putBack = (entry: Entry) =>
    act(async () => {
      const id = newId();
      await call("PUT", addresses.entry(steaming.id, id), { ...entry, id });
      deleted.value = null;
      said.value = `Back again: ${entryInWords(entry, locomotive)} at ${clockOf(entry.atS)}.`;
    });
  const saved = (words: string) => {
    said.value = words;
    deleted.value = null;
    void reload();
  };

  useEffect(() => {
    const id = pointedAt.value;
    if (id === null) return;
    const row = document.getElementById(`entry-${id}`);
    row?.scrollIntoView({ block: "center" });
    row?.focus();
  }, [pointedAt.value]);

  return (
    <section class="entries on-screen" aria-labelledby="entries-title">
      <div class="page-head">
        <h2 id="entries-title">Entries</h2>
        {mayWrite() && (
          <button
            type="button"
            aria-expanded={adding.value}
            onClick={() => {
              adding.value = !adding.value;
            }}
          >
            Write down an entry
          </button>
        )}
      </div>
      {adding.value && mayWrite() && (
        <EntryForm
          sheet={sheet}
          entry={null}
          onSaved={saved}
          onLeave={() => {
            adding.value = false;
          }}
        />
      )}
      <div role="status">
        {said.value !== null && <Notice grade="done" word={said.value} />}
        {deleted.value !== null && (
          <Notice grade="done" word="Deleted:">
            {entryInWords(deleted.value, locomotive)} at {clockOf(deleted.value.atS)}.{" "}
            <button type="button" onClick={() => deleted.value !== null && void putBack(deleted.value)}>
              Put it back
            </button>
          </Notice>
        )}
      </div>
      {refusal.value !== null && <Refused word="Not done" refusal={refusal.value} />}
      <EntriesTable
        sheet={sheet}
        pointedAt={pointedAt.value}
        onDelete={(entry) => void remove(entry)}
        onSaved={saved}
      />
      <TakenOutEntries sheet={sheet} />
    </section>
  );
}
