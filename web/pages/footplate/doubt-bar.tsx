import type { EntryRecord } from "../../outbox/database.ts";
import { Mark } from "../../parts/mark.tsx";
import { entryValue } from "../../words/entry-words.ts";
import { doubtOf } from "./doubt.ts";
import type { Recorder } from "./recorder.ts";

interface Properties {
  record: EntryRecord;
  recorder: Recorder;
  onChange: () => void;
}

/** A question about what was kept: one tap mends it, another says that it is right. It stands in nobody's way. */
export function DoubtBar({ record, recorder, onChange }: Properties) {
  const { engine } = recorder.steaming.value;
  const before = recorder.entries.value.filter(
    (entry) => entry.id !== record.id && entry.atS <= record.entry.atS,
  );
  const meant = doubtOf(record.entry, before, engine)?.meant ?? null;
  return (
    <div class="doubt-bar" role="status">
      <p>
        <Mark of="caution" /> <strong>{record.doubt}</strong> It is kept.
      </p>
      <div class="actions">
        {meant !== null && (
          <button type="button" onClick={() => void recorder.correct(record.id, meant)}>
            Make it {entryValue(meant, engine)}
          </button>
        )}
        {record.entry.kind === "lap" ? (
          <button type="button" onClick={() => void recorder.remove(record)}>
            Take it out
          </button>
        ) : (
          <button type="button" onClick={onChange}>
            Change
          </button>
        )}
        <button type="button" onClick={() => void recorder.itIsRight(record.id)}>
          It is right
        </button>
      </div>
    </div>
  );
}
