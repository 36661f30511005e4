import type { Problem } from "../../src/logbook/problems.ts";
import { type Draft, formPath, valueAt, withValue } from "./draft.ts";
import { Field } from "./field.tsx";
import type { FieldSpec } from "./field-spec.ts";

interface Properties {
  form: string;
  fields: readonly FieldSpec[];
  draft: Draft;
  problems: readonly Problem[];
  /** none of them is needed, and the heading says so */
  allOptional?: boolean;
  onDraft: (draft: Draft) => void;
}

/** The fields in their order, each with the problem that names it. */
export function FieldList({ form, fields, draft, problems, allOptional, onDraft }: Properties) {
  return (
    <div class="fields">
      {fields.map((spec) => (
        <Field
          key={spec.path}
          spec={spec}
          form={form}
          value={valueAt(draft, spec.path)}
          sayOptional={allOptional !== true}
          problem={problems.find((problem) => formPath(problem.path) === spec.path)}
          onValue={(value) => onDraft(withValue(draft, spec.path, value))}
        />
      ))}
    </div>
  );
}
