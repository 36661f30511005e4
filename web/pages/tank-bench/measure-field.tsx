import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import type { Problem } from "../../../src/logbook/problems.ts";
import { planKinds } from "../../../src/sizing/run-figures.ts";
import { lengthMm } from "../../../src/sizing/typed-length.ts";
import { type Draft, formPath, valueAt, withValue } from "../../forms/draft.ts";
import { fieldId } from "../../forms/field.tsx";
import { typedNumber } from "../../words/number.ts";

export const form = "bench";

/** What every part of the bench edits: the plan as it is typed, and what is wrong with it. */
export interface Editing {
  draft: Draft;
  problems: readonly Problem[];
  scale: number;
  /** the size that the bench found itself, by its place in the plan */
  found: { path: string; mm: number } | null;
  onDraft: (draft: Draft) => void;
}

export interface MeasureSpec {
  path: string;
  label: string;
  /** "length" may be typed as mm, inches or full-size feet; a unit is of a plain number */
  unit: string;
  slide: readonly [from: number, to: number, step: number];
  /** stands where nothing is typed */
  usual?: number;
  hint?: string;
}

export const length = (
  path: string,
  label: string,
  slide: MeasureSpec["slide"],
  more: Partial<MeasureSpec> = {},
): MeasureSpec => ({ path, label, unit: "length", slide, ...more });

const read = (text: string): number | string | undefined =>
  text.trim() === "" ? undefined : (typedNumber(text) ?? text.trim());
const write = (value: unknown): string =>
  typeof value === "number" || typeof value === "string" ? String(value) : "";

/** Where the run has no length, that is wanted of the field for it. */
const isLengthOfRun = (path: string, field: string): boolean =>
  path === "plan" && planKinds.some((kind) => field === `plan.${kind}`);

/** A field to type in with a slider under it: both say the same. */
export function MeasureField({ spec, editing }: { spec: MeasureSpec; editing: Editing }) {
  const { draft, problems, scale, onDraft } = editing;
  const id = fieldId(form, spec.path);
  const value = valueAt(draft, spec.path);
  const typed = useSignal(write(value));
  const same = read(typed.value) === value;
  useEffect(() => {
    if (!same) typed.value = write(value);
  }, [same, typed, value]);
  const isLength = spec.unit === "length";
  const given = value as number | string | undefined;
  const mm =
    given === undefined
      ? (spec.usual ?? null)
      : isLength
        ? lengthMm(given, scale)
        : typeof given === "number"
          ? given
          : null;
  const problem = problems.find(({ path }) => formPath(path) === spec.path || isLengthOfRun(path, spec.path));
  const [from, to, step] = spec.slide;
  const set = (next: number | string | undefined) => onDraft(withValue(draft, spec.path, next));
  const inMm = typeof given === "string" && mm !== null ? `${mm.toFixed(2)} mm` : null;
  const unset = given === undefined && spec.usual !== undefined ? `${spec.usual} if left empty` : null;
  const found =
    editing.found?.path === spec.path
      ? `the bench finds ${editing.found.mm.toFixed(1)} mm, which stands for this`
      : null;
  const notes = [found, spec.hint, inMm, unset].filter((note) => note !== null && note !== undefined);
  return (
    <div class="field measure">
      <label for={id}>
        <span class="label-words">{spec.label}</span> <span class="unit">{isLength ? "mm" : spec.unit}</span>
      </label>
      <input
        id={id}
        type="text"
        autocomplete="off"
        inputMode={isLength ? "text" : "decimal"}
        value={typed.value}
        {...(problem === undefined ? {} : { "aria-invalid": true })}
        {...(notes.length + (problem === undefined ? 0 : 1) === 0
          ? {}
          : { "aria-describedby": `${id}-hint` })}
        onInput={(event) => {
          typed.value = event.currentTarget.value;
          set(read(event.currentTarget.value));
        }}
      />
      <input
        type="range"
        aria-label={`${spec.label}, slider`}
        min={from}
        max={to}
        step={step}
        value={mm ?? from}
        onInput={(event) => set(Number(event.currentTarget.value))}
      />
      {(notes.length > 0 || problem !== undefined) && (
        <p class={problem === undefined ? "hint" : "hint wrong"} id={`${id}-hint`}>
          {problem === undefined ? notes.join("; ") : `Wanted: ${problem.wanted}.`}
        </p>
      )}
    </div>
  );
}

export function Measures({ specs, editing }: { specs: readonly MeasureSpec[]; editing: Editing }) {
  return (
    <div class="fields">
      {specs.map((spec) => (
        <MeasureField key={spec.path} spec={spec} editing={editing} />
      ))}
    </div>
  );
}

interface SuggestedProperties {
  path: string;
  label: string;
  suggestions: readonly string[];
  editing: Editing;
}

/** A text to type, with the usual ones offered. */
export function Suggested({ path, label, suggestions, editing }: SuggestedProperties) {
  const id = fieldId(form, path);
  const problem = editing.problems.find((one) => formPath(one.path) === path);
  return (
    <div class="field">
      <label for={id}>
        <span class="label-words">{label}</span>
      </label>
      <input
        id={id}
        type="text"
        autocomplete="off"
        list={`${id}-usual`}
        value={write(valueAt(editing.draft, path))}
        {...(problem === undefined ? {} : { "aria-invalid": true, "aria-describedby": `${id}-hint` })}
        onInput={(event) => editing.onDraft(withValue(editing.draft, path, event.currentTarget.value))}
      />
      <datalist id={`${id}-usual`}>
        {suggestions.map((one) => (
          <option key={one} value={one} />
        ))}
      </datalist>
      {problem !== undefined && (
        <p class="hint wrong" id={`${id}-hint`}>
          Wanted: {problem.wanted}.
        </p>
      )}
    </div>
  );
}

interface PickProperties {
  path: string;
  label: string;
  choices: readonly (readonly [string, string])[];
  editing: Editing;
  usual?: string;
}

/** A choice by name. */
export function Pick({ path, label, choices, editing, usual }: PickProperties) {
  const id = fieldId(form, path);
  const value = valueAt(editing.draft, path);
  return (
    <div class="field">
      <label for={id}>
        <span class="label-words">{label}</span>
      </label>
      <select
        id={id}
        value={typeof value === "string" ? value : (usual ?? "")}
        onChange={(event) => editing.onDraft(withValue(editing.draft, path, event.currentTarget.value))}
      >
        {choices.map(([key, words]) => (
          <option key={key} value={key}>
            {words}
          </option>
        ))}
      </select>
    </div>
  );
}
