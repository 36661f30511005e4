import type { EntryRecord } from "../../outbox/database.ts";
import { lapsOf, type Recorder } from "./recorder.ts";

interface Properties {
  recorder: Recorder;
  onUndo: (atMs: number) => void;
  onMore: () => void;
}

/** What was kept last and the way back from it, far from the lap: a thumb that misses one does not find the other. */
export function Foot({ recorder, onUndo, onMore }: Properties) {
  const { said, undoes, undoesChange, entries } = recorder;
  const record = undoes.value;
  return (
    <div class="foot">
      <button
        type="button"
        class="key undo"
        disabled={record === null}
        onClick={(event) => onUndo(event.timeStamp)}
      >
        {record === null
          ? "Undo"
          : `Undo ${undoesChange.value ? "change of " : ""}${undoName(record, lapsOf(entries.value))}`}
      </button>
      <p class={`said ${said.value?.grade ?? ""}`} role="status" data-number={said.value?.number ?? 0}>
        {said.value !== null && `${said.value.grade === "done" ? "✓ " : ""}${said.value.words}`}
      </p>
      <button type="button" class="key more-key" onClick={onMore}>
        More
      </button>
    </div>
  );
}

const undoNames: Partial<Record<EntryRecord["entry"]["kind"], string>> = {
  level: "water",
  bypass: "by-pass",
};

const undoName = ({ entry }: EntryRecord, laps: number): string =>
  entry.kind === "lap" ? `lap ${laps}` : (undoNames[entry.kind] ?? entry.kind);
