import type { FunctionComponent } from "preact";

/** One field of a form: where its value goes and how it is asked for. */
export interface FieldSpec {
  path: string;
  label: string;
  hint?: string;
  needed?: boolean;
  input:
    | { kind: "text"; long?: boolean }
    /** `unit` is the logbook's; the reader types in their own */
    | { kind: "number"; unit: string }
    | { kind: "choice"; choices: readonly (readonly [value: string, name: string])[] }
    /** seconds since the steaming started, typed as minutes and seconds */
    | { kind: "time" }
    /** a control that only some rooms have, and bring with them */
    | { kind: "own"; Control: FunctionComponent<ControlProperties> };
}

export interface ControlProperties {
  common: { id: string; name: string };
  value: unknown;
  onValue: (value: unknown) => void;
}

export const text = (path: string, label: string, more: Partial<FieldSpec> = {}): FieldSpec => ({
  path,
  label,
  input: { kind: "text" },
  ...more,
});

export const number = (
  path: string,
  label: string,
  unit: string,
  more: Partial<FieldSpec> = {},
): FieldSpec => ({
  path,
  label,
  input: { kind: "number", unit },
  ...more,
});

export const choice = (
  path: string,
  label: string,
  choices: readonly (readonly [string, string])[],
  more: Partial<FieldSpec> = {},
): FieldSpec => ({ path, label, input: { kind: "choice", choices }, ...more });
