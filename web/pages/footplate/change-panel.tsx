import { useSignal } from "@preact/signals";
import type { EntryKind } from "../../../src/logbook/entry.ts";
import { withoutGlassWords } from "../../../src/logbook/glass-reading.ts";
import type { Draft } from "../../forms/draft.ts";
import { entryFields, noteField, timeField } from "../../forms/entry-fields.ts";
import { unreadable } from "../../forms/unreadable.ts";
import type { EntryRecord, LogEntry } from "../../outbox/database.ts";
import { entryKindNames } from "../../words/names.ts";
import { ChangeForm } from "./change-form.tsx";
import type { Recorder } from "./recorder.ts";

interface Properties {
  record: EntryRecord;
  recorder: Recorder;
  onLeave: () => void;
}

/** An entry changed in its own fields; what it said before stays with it. */
export function ChangePanel({ record, recorder, onLeave }: Properties) {
  const { engine } = recorder.steaming.value;
  const draft = useSignal<Draft>({ ...record.entry });
  const kind: EntryKind = record.entry.kind;
  const fields = [timeField, ...entryFields(kind, engine), noteField];
  const problems = unreadable(fields, draft.value);
  return (
    <ChangeForm
      title={`Change: ${entryKindNames[kind]}`}
      form="footplate-change"
      fields={fields}
      problems={problems}
      draft={draft}
      onKeep={() => recorder.correct(record.id, asChanged(record.entry, draft.value as unknown as LogEntry))}
      onLeave={onLeave}
    />
  );
}

/** Millimetres typed in place of a quarter of the glass are millimetres. */
function asChanged(before: LogEntry, entry: LogEntry): LogEntry {
  if (entry.kind !== "level" || before.kind !== "level" || entry.mm === before.mm) return entry;
  const { note, ...rest } = entry;
  const kept = withoutGlassWords(note);
  return kept === undefined ? rest : { ...rest, note: kept };
}
