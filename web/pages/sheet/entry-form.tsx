import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import type { Entry, EntryKind } from "../../../src/logbook/entry.ts";
import { addresses } from "../../api/addresses.ts";
import { newId } from "../../api/new-id.ts";
import type { Sheet } from "../../api/shapes.ts";
import { type Draft, formPath } from "../../forms/draft.ts";
import { entryFields, noteField, timeField } from "../../forms/entry-fields.ts";
import { fieldId } from "../../forms/field.tsx";
import { FieldList } from "../../forms/field-list.tsx";
import { choice } from "../../forms/field-spec.ts";
import { useSubmit } from "../../forms/submit.ts";
import { Refused } from "../../parts/refused.tsx";
import { entryKindNames } from "../../words/names.ts";
import { clockOf } from "../../words/time.ts";

interface Properties {
  sheet: Sheet;
  /** null for a new one */
  entry: Entry | null;
  onSaved: (words: string) => void;
  onLeave: () => void;
}

const kindField = choice("kind", "What", Object.entries(entryKindNames), { needed: true });
const isKind = (word: string): word is EntryKind => word in entryKindNames;

/** What most often stands in a new entry of the kind. */
const usual: Partial<Record<EntryKind, Draft>> = {
  lap: { count: 1 },
  feed: { by: "hand-pump" },
  fuel: { action: "added" },
};

export function EntryForm({ sheet, entry, onSaved, onLeave }: Properties) {
  const form = entry === null ? "new-entry" : "entry-correction";
  const draft = useSignal<Draft>(
    entry === null ? { id: newId(), atS: sheet.entries.at(-1)?.atS ?? 0, kind: "pressure" } : { ...entry },
  );
  const { sending, refusal, submit } = useSubmit();
  useEffect(() => {
    document.getElementById(fieldId(form, timeField.path))?.focus();
  }, [form]);

  const kindNow = String(draft.value.kind);
  const fields = isKind(kindNow) ? entryFields(kindNow, sheet.locomotive) : [];
  const common = {
    form,
    draft: draft.value,
    problems: refusal.value?.problems ?? [],
    onDraft: (next: Draft) => {
      draft.value = next.kind === draft.peek().kind ? next : ofOtherKind(next);
    },
  };
  const save = async () => {
    const { id, kind, atS } = draft.value;
    const path = addresses.entry(sheet.steaming.id, String(id));
    if (!(await submit("PUT", entry === null ? path : `${path}?correction=true`, draft.value))) return;
    const name = isKind(String(kind)) ? entryKindNames[String(kind) as EntryKind] : String(kind);
    onSaved(`${entry === null ? "Kept" : "Corrected"}: ${name} at ${clockOf(Number(atS))}.`);
    if (entry === null) {
      draft.value = { ...ofOtherKind(draft.value), id: newId() };
      document.getElementById(fieldId(form, timeField.path))?.focus();
    }
  };

  return (
    <form
      class="entry-form ruled"
      noValidate
      aria-label={entry === null ? "A new entry" : "Correct the entry"}
      onSubmit={(event) => {
        event.preventDefault();
        void save();
      }}
    >
      <FieldList {...common} fields={[timeField, kindField, ...fields, noteField]} />
      {refusal.value !== null && (
        <Refused
          word="Not kept; what you typed is still here"
          refusal={refusal.value}
          fieldOf={(problem) => fieldId(form, formPath(problem.path))}
        />
      )}
      <div class="actions">
        <button type="submit" class="primary" disabled={sending.value}>
          {sending.value ? "Keeping it" : entry === null ? "Keep the entry" : "Keep the correction"}
        </button>
        <button type="button" onClick={onLeave}>
          {entry === null ? "Done" : "Leave it as it was"}
        </button>
      </div>
    </form>
  );
}

/** Keeps the time; what belongs to the kind begins anew. */
function ofOtherKind(draft: Draft): Draft {
  const { id, atS, kind } = draft;
  return { id, atS, kind, ...(isKind(String(kind)) ? usual[String(kind) as EntryKind] : {}) };
}
