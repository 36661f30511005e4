import { useSignal } from "@preact/signals";
import { useMemo } from "preact/hooks";
import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import type { SteamingHead } from "../../../src/logbook/steaming.ts";
import { addresses } from "../../api/addresses.ts";
import { newId } from "../../api/new-id.ts";
import { type Draft, formPath } from "../../forms/draft.ts";
import { fieldId } from "../../forms/field.tsx";
import { FieldList } from "../../forms/field-list.tsx";
import { fieldNow } from "../../forms/field-now.ts";
import { FormFrame } from "../../forms/form-frame.tsx";
import { aMoment } from "../../forms/moment-control.tsx";
import { beginFields, steamingFurtherFields } from "../../forms/steaming-fields.ts";
import { useSubmit } from "../../forms/submit.ts";
import { momentFromField } from "../../words/moment-from-field.ts";

interface Properties {
  engine: Locomotive;
  /** null for a new one */
  head: SteamingHead | null;
  onSaved: (id: string) => void;
  onLeave: () => void;
}

const form = "steaming";

const headFields = [...beginFields, { path: "startedAt", label: "Started", needed: true, input: aMoment }];

/** The head of a steaming: its entries are typed in on the test sheet. */
export function SteamingForm({ engine, head, onSaved, onLeave }: Properties) {
  const start = useMemo<Draft>(
    () =>
      head === null
        ? { id: newId(), locomotiveId: engine.id, purpose: "trial", startedAt: momentFromField(fieldNow()) }
        : { ...head },
    [engine, head],
  );
  const draft = useSignal<Draft>(start);
  const { sending, refusal, submit } = useSubmit();
  const common = {
    form,
    draft: draft.value,
    problems: refusal.value?.problems ?? [],
    onDraft: (next: Draft) => {
      draft.value = next;
    },
  };
  const save = async () => {
    const id = String(draft.value.id);
    const saved =
      head === null
        ? await submit("POST", addresses.steamings, { ...draft.value, entries: [] })
        : await submit("PUT", addresses.steaming(id), draft.value);
    if (saved) onSaved(id);
  };
  return (
    <FormFrame
      title={head === null ? `A new steaming of ${engine.name}` : "This steaming's particulars"}
      saveWord={head === null ? "Begin the steaming" : "Save the particulars"}
      sending={sending.value}
      refusal={refusal.value}
      fieldOf={(problem) => fieldId(form, formPath(problem.path))}
      onSave={() => void save()}
      onLeave={onLeave}
    >
      <FieldList {...common} fields={headFields} />
      <details class="fold" open={head !== null}>
        <summary>
          Conditions, track and train <span class="unit">if known</span>
        </summary>
        <FieldList {...common} fields={steamingFurtherFields} allOptional />
      </details>
    </FormFrame>
  );
}
