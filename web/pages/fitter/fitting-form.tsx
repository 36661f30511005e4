import { useSignal } from "@preact/signals";
import { useMemo } from "preact/hooks";
import { mustComeOff, partsOf } from "../../../src/care/jobs.ts";
import type { Fitting, Locomotive } from "../../../src/logbook/locomotive.ts";
import type { Problem } from "../../../src/logbook/problems.ts";
import { addresses } from "../../api/addresses.ts";
import type { Draft } from "../../forms/draft.ts";
import { fittingFields } from "../../forms/engine-fields.ts";
import { fieldId } from "../../forms/field.tsx";
import { FieldList } from "../../forms/field-list.tsx";
import { text } from "../../forms/field-spec.ts";
import { FormFrame } from "../../forms/form-frame.tsx";
import { useSubmit } from "../../forms/submit.ts";

interface Properties {
  engine: Locomotive;
  fitting: Fitting;
  onDone: (words: string) => void;
  onLeave: () => void;
}

const form = "fitting";
const moreParts = text("moreParts", "Other parts that must come off", {
  hint: "Apart by commas, such as: dome, cab roof.",
});

/** Limit, packing and access of one fitting; parts already named for this engine are offered. */
export function FittingForm({ engine, fitting, onDone, onLeave }: Properties) {
  const start = useMemo<Draft>(() => ({ ...fitting }), [fitting]);
  const draft = useSignal<Draft>(start);
  const parts = partsOf(engine.fittings).sort();
  const off = useSignal<readonly string[]>(parts.filter((part) => mustComeOff(part, fitting)));
  const nothing = useSignal(fitting.access?.length === 0);
  const { sending, refusal, submit } = useSubmit();
  const problems = (refusal.value?.problems ?? []).map(ofThisFitting);

  const save = async () => {
    const { moreParts: typed, access: _before, ...rest } = draft.value;
    const more = String(typed ?? "")
      .split(",")
      .map((part) => part.trim())
      .filter((part) => part !== "");
    const access = partsOf([{ access: [...off.value, ...more] }]);
    const changed = { ...rest, ...(access.length > 0 || nothing.value ? { access } : {}) };
    const fittings = engine.fittings.map((one) => (one.id === fitting.id ? changed : one));
    if (await submit("PUT", addresses.locomotive(engine.id), { ...engine, fittings })) {
      onDone(`Kept: particulars of the ${fitting.name.toLowerCase()}.`);
    }
  };

  return (
    <FormFrame
      title={`The ${fitting.name.toLowerCase()}: limit and particulars`}
      saveWord="Keep the particulars"
      sending={sending.value}
      refusal={refusal.value}
      fieldOf={(problem) => fieldId(form, ofThisFitting(problem).path)}
      onSave={() => void save()}
      onLeave={onLeave}
    >
      <FieldList
        form={form}
        fields={[...fittingFields, moreParts]}
        draft={draft.value}
        problems={problems}
        onDraft={(next) => {
          draft.value = next;
        }}
      />
      <fieldset>
        <legend>Must come off to reach it</legend>
        <div class="tick-boxes">
          {parts.map((part) => (
            <label key={part}>
              <input
                type="checkbox"
                checked={off.value.includes(part)}
                onChange={(event) => {
                  off.value = event.currentTarget.checked
                    ? [...off.value, part]
                    : off.value.filter((other) => other !== part);
                }}
              />{" "}
              {part}
            </label>
          ))}
          {off.value.length === 0 && (
            <label>
              <input
                type="checkbox"
                checked={nothing.value}
                onChange={(event) => {
                  nothing.value = event.currentTarget.checked;
                }}
              />{" "}
              nothing: it is reached as she stands
            </label>
          )}
        </div>
      </fieldset>
    </FormFrame>
  );
}

/** A problem of the engine's list, told at the field of this form. */
const ofThisFitting = (problem: Problem): Problem => ({
  ...problem,
  path: problem.path.replace(/^fittings(\[\d+\]|\.\d+)\.?/, ""),
});
