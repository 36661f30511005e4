import { useSignal } from "@preact/signals";
import { useMemo } from "preact/hooks";
import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import { addresses } from "../../api/addresses.ts";
import { newId } from "../../api/new-id.ts";
import { type Draft, formPath, valueAt, withValue } from "../../forms/draft.ts";
import {
  boilerFields,
  engineFields,
  engineFurtherSections,
  fittingFields,
  pointFields,
  shapeFields,
  shapeKinds,
  tubeFields,
} from "../../forms/engine-fields.ts";
import { fieldId } from "../../forms/field.tsx";
import { FieldList } from "../../forms/field-list.tsx";
import { choice } from "../../forms/field-spec.ts";
import { FormFrame } from "../../forms/form-frame.tsx";
import { withFuelHints } from "../../forms/fuel-hints.ts";
import { RowList } from "../../forms/row-list.tsx";
import { useSubmit } from "../../forms/submit.ts";
import { TakeOutEngine } from "./take-out-engine.tsx";

interface Properties {
  /** null for a new one */
  engine: Locomotive | null;
  onSaved: (name: string) => void;
  onTakenOut: (words: string) => void;
  onLeave: () => void;
}

const form = "engine";
const blankEngine = (): Draft => ({
  id: newId(),
  fuel: { kind: "spirit" },
  boiler: { shape: { kind: "horizontal" }, metal: "copper" },
  fittings: [],
});

export function EngineForm({ engine, onSaved, onTakenOut, onLeave }: Properties) {
  const start = useMemo<Draft>(() => (engine === null ? blankEngine() : { ...engine }), [engine]);
  const draft = useSignal<Draft>(start);
  const { sending, refusal, submit } = useSubmit();
  const problems = refusal.value?.problems ?? [];
  const common = {
    form,
    draft: draft.value,
    problems,
    onDraft: (next: Draft) => {
      draft.value = next;
    },
  };
  const shape = String(valueAt(draft.value, "boiler.shape.kind"));

  const save = async () => {
    const saved =
      engine === null
        ? await submit("POST", addresses.locomotives, draft.value)
        : await submit("PUT", addresses.locomotive(engine.id), draft.value);
    if (saved) onSaved(String(draft.value.name));
  };

  return (
    <FormFrame
      title={engine === null ? "A new engine" : `${engine.name}: her particulars`}
      saveWord="Save the engine"
      sending={sending.value}
      refusal={refusal.value}
      fieldOf={(problem) => fieldId(form, formPath(problem.path))}
      onSave={() => void save()}
      onLeave={onLeave}
    >
      <FieldList {...common} fields={engineFields} />
      <h3>Boiler</h3>
      <FieldList
        {...common}
        fields={[choice("boiler.shape.kind", "Shape", shapeKinds, { needed: true })]}
        onDraft={(next) => {
          draft.value = withValue(next, "boiler.shape", blankShape(valueAt(next, "boiler.shape.kind")));
        }}
      />
      <FieldList {...common} fields={[...(shapeFields[shape] ?? []), ...boilerFields]} />
      {shape === "table" ? (
        <RowList
          {...common}
          path="boiler.shape.points"
          what="point"
          fields={pointFields}
          blank={() => ({})}
        />
      ) : (
        <RowList
          {...common}
          path="boiler.shape.tubes"
          what="flue or row of tubes"
          fields={tubeFields(shape === "horizontal")}
          blank={() => ({ count: 1 })}
        />
      )}
      {engineFurtherSections.map((section) => (
        <details key={section.title} class="fold">
          <summary>
            {section.title} <span class="unit">if known</span>
          </summary>
          <FieldList
            {...common}
            fields={withFuelHints(section.fields, valueAt(draft.value, "fuel.kind"))}
            allOptional
          />
        </details>
      ))}
      <details class="fold">
        <summary>Fittings</summary>
        <RowList
          {...common}
          path="fittings"
          what="fitting"
          fields={fittingFields}
          blank={() => ({ id: newId(), kind: "gland" })}
        />
      </details>
      {engine !== null && (
        <div class="fold-foot">
          <TakeOutEngine engine={engine} onDone={onTakenOut} />
        </div>
      )}
    </FormFrame>
  );
}

const blankShape = (kind: unknown): Draft => (kind === "table" ? { kind, points: [{}] } : { kind });
