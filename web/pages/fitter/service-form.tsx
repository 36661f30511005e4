import { useSignal } from "@preact/signals";
import { useMemo } from "preact/hooks";
import type { Fitting, Locomotive } from "../../../src/logbook/locomotive.ts";
import { furtherAddresses } from "../../api/further-addresses.ts";
import { newId } from "../../api/new-id.ts";
import { type Draft, formPath } from "../../forms/draft.ts";
import { fieldId } from "../../forms/field.tsx";
import { FieldList } from "../../forms/field-list.tsx";
import { fieldNow } from "../../forms/field-now.ts";
import { choice, type FieldSpec, text } from "../../forms/field-spec.ts";
import { FormFrame } from "../../forms/form-frame.tsx";
import { aMoment } from "../../forms/moment-control.tsx";
import { useSubmit } from "../../forms/submit.ts";
import { serviceNames } from "../../words/fitting-names.ts";
import { momentFromField } from "../../words/moment-from-field.ts";

interface Properties {
  engine: Locomotive;
  fitting: Fitting;
  onDone: (words: string) => void;
  onLeave: () => void;
}

const form = "service";
const fields: readonly FieldSpec[] = [
  choice("what", "What was done", Object.entries(serviceNames), { needed: true }),
  { path: "at", label: "When", needed: true, input: aMoment },
  text("note", "Remark", { hint: "Such as what the old packing looked like." }),
];

export function ServiceForm({ engine, fitting, onDone, onLeave }: Properties) {
  const start = useMemo<Draft>(
    () => ({
      id: newId(),
      locomotiveId: engine.id,
      fittingId: fitting.id,
      at: momentFromField(fieldNow()),
    }),
    [engine.id, fitting.id],
  );
  const draft = useSignal<Draft>(start);
  const { sending, refusal, submit } = useSubmit();
  const save = async () => {
    if (!(await submit("POST", furtherAddresses.services, draft.value))) return;
    const later = Date.parse(String(draft.value.at)) > Date.now();
    onDone(`Kept: ${fitting.name} done.${later ? " Its day is yet to come: is that right?" : ""}`);
  };
  return (
    <FormFrame
      title={`What was done to the ${fitting.name.toLowerCase()}`}
      saveWord="Keep the service"
      sending={sending.value}
      refusal={refusal.value}
      fieldOf={(problem) => fieldId(form, formPath(problem.path))}
      onSave={() => void save()}
      onLeave={onLeave}
    >
      <FieldList
        form={form}
        fields={fields}
        draft={draft.value}
        problems={refusal.value?.problems ?? []}
        onDraft={(next) => {
          draft.value = next;
        }}
      />
    </FormFrame>
  );
}
