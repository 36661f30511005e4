import type { EntryRecord, LogEntry } from "../../outbox/database.ts";
import { entryInWords } from "../../words/entry-words.ts";
import type { Content, Recorder } from "./recorder.ts";

/** What else a number can be. */
export interface Other {
  name: string;
  content: Content;
}

/** An entry whose number was kept under the usual meaning, and what else it may be. */
export interface MayBe {
  id: string;
  others: readonly Other[];
  sinceS: number;
}

/** So long it is asked; Undo and the list mend it later, s. */
const ASKED_S = 20;

/** The likeliest stand in one row; what is none of them is mended in the list. */
const OFFERED = 3;

/** Null once something else was written down, or it was changed, or time has passed. */
export function asUsual(
  mayBe: MayBe | null,
  recorder: Recorder,
  nowS: number,
): { record: EntryRecord; others: readonly Other[] } | null {
  const record = recorder.undoes.value;
  if (mayBe === null || record?.id !== mayBe.id || recorder.undoesChange.value) return null;
  return nowS - mayBe.sinceS > ASKED_S ? null : { record, others: mayBe.others };
}

/** The last digit kept it as what is usual: if it was something else, one tap mends it. */
export function MeaningBar({
  record,
  others,
  recorder,
}: {
  record: EntryRecord;
  others: readonly Other[];
  recorder: Recorder;
}) {
  const { id, atS } = record.entry;
  return (
    <div class="meaning-bar" role="status">
      <p>
        {record.doubt} Kept as <strong>{entryInWords(record.entry, recorder.steaming.value.engine)}</strong>.
        If not:
      </p>
      <div class="meanings">
        {others.slice(0, OFFERED).map(({ name, content }) => (
          <button
            key={name}
            type="button"
            class="key meaning"
            onClick={() => void recorder.correct(id, { ...content, id, atS } as LogEntry)}
          >
            {name}
          </button>
        ))}
      </div>
    </div>
  );
}
