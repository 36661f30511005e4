import type { Problem } from "../../src/logbook/problems.ts";
import { type Draft, valueAt, withValue } from "./draft.ts";
import { FieldList } from "./field-list.tsx";
import type { FieldSpec } from "./field-spec.ts";

interface Properties {
  form: string;
  path: string;
  /** what one row is, such as "fitting" */
  what: string;
  fields: readonly FieldSpec[];
  blank: () => Draft;
  draft: Draft;
  problems: readonly Problem[];
  onDraft: (draft: Draft) => void;
}

/** Any number of like rows (tubes, fittings, points of a table), each with a way to take it out. */
export function RowList({ form, path, what, fields, blank, draft, problems, onDraft }: Properties) {
  const held = valueAt(draft, path);
  const rows = Array.isArray(held) ? held : [];
  return (
    <div class="rows">
      {rows.map((_, index) => (
        // rows have no name of their own until they are saved: their place is what tells them apart
        <fieldset key={`${path}.${String(index)}`}>
          <legend>
            {what.replace(/^./, (letter) => letter.toUpperCase())} {index + 1}
          </legend>
          <FieldList
            form={form}
            fields={fields.map((field) => ({ ...field, path: `${path}.${index}.${field.path}` }))}
            draft={draft}
            problems={problems}
            onDraft={onDraft}
          />
          <button type="button" onClick={() => onDraft(withValue(draft, path, without(rows, index)))}>
            Take out {what} {index + 1}
          </button>
        </fieldset>
      ))}
      <button type="button" onClick={() => onDraft(withValue(draft, path, [...rows, blank()]))}>
        Add a {what}
      </button>
    </div>
  );
}

const without = (rows: readonly unknown[], index: number): readonly unknown[] =>
  rows.filter((_, other) => other !== index);
