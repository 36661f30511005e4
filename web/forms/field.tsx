import type { Problem } from "../../src/logbook/problems.ts";
import { showing } from "../preferences/shown.ts";
import type { ControlProperties, FieldSpec } from "./field-spec.ts";
import { numberReading, TypedControl, timeReading } from "./typed-control.tsx";

interface Properties {
  spec: FieldSpec;
  /** sets the ids of one form's fields apart from another's */
  form: string;
  value: unknown;
  problem?: Problem | undefined;
  /** whether "optional" stands beside a field that may be left empty */
  sayOptional: boolean;
  onValue: (value: unknown) => void;
}

export const fieldId = (form: string, path: string): string => `${form}-${path}`;

/** A labelled field with its unit, its hint, and what is wrong with it. */
export function Field({ spec, form, value, problem, sayOptional, onValue }: Properties) {
  const id = fieldId(form, spec.path);
  const noteIds = [
    spec.hint === undefined ? null : `${id}-hint`,
    problem === undefined ? null : `${id}-problem`,
  ].filter((noteId) => noteId !== null);
  const common = {
    id,
    name: spec.path,
    ...(spec.needed === true ? { "aria-required": true } : {}),
    ...(problem === undefined ? {} : { "aria-invalid": true }),
    ...(noteIds.length === 0 ? {} : { "aria-describedby": noteIds.join(" ") }),
  };
  const unit = spec.input.kind === "number" ? showing(spec.input.unit).unit : null;
  return (
    <div class="field">
      <label for={id}>
        <span class="label-words">{spec.label}</span>
        {unit !== null && unit !== "" && <span class="unit"> {unit}</span>}
        {spec.needed !== true && sayOptional && <span class="unit"> optional</span>}
      </label>
      <Control spec={spec} common={common} value={value} onValue={onValue} />
      {spec.hint !== undefined && (
        <p class="hint" id={`${id}-hint`}>
          {spec.hint}
        </p>
      )}
      {problem !== undefined && (
        <p class="hint wrong" id={`${id}-problem`}>
          {problem.came === "nothing" ? "" : `Came ${problem.came}. `}Wanted: {problem.wanted}.
        </p>
      )}
    </div>
  );
}

type WithSpec = ControlProperties & { spec: FieldSpec };

function Control({ spec, common, value, onValue }: WithSpec) {
  const { input } = spec;
  switch (input.kind) {
    case "text":
      return input.long === true ? (
        <textarea
          {...common}
          rows={3}
          value={words(value)}
          onInput={(e) => onValue(given(e.currentTarget.value))}
        />
      ) : (
        <input
          {...common}
          type="text"
          value={words(value)}
          onInput={(e) => onValue(given(e.currentTarget.value))}
        />
      );
    case "choice":
      return (
        <select {...common} value={words(value)} onChange={(e) => onValue(given(e.currentTarget.value))}>
          {(spec.needed !== true || value === undefined) && <option value="">choose</option>}
          {input.choices.map(([key, name]) => (
            <option key={key} value={key}>
              {name}
            </option>
          ))}
        </select>
      );
    case "own":
      return <input.Control common={common} value={value} onValue={onValue} />;
    case "number":
      return <TypedControl common={common} value={value} onValue={onValue} {...numberReading(input.unit)} />;
    case "time":
      return <TypedControl common={common} value={value} onValue={onValue} {...timeReading} />;
  }
}

const words = (value: unknown): string => (typeof value === "string" ? value : "");
const given = (text: string): string | undefined => (text === "" ? undefined : text);
