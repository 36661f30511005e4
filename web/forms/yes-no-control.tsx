import type { ControlProperties } from "./field-spec.ts";

function YesNoControl({ common, value, onValue }: ControlProperties) {
  return (
    <select
      {...common}
      value={value === undefined ? "" : String(value)}
      onChange={(e) => onValue({ true: true, false: false }[e.currentTarget.value])}
    >
      <option value="">not said</option>
      <option value="true">yes</option>
      <option value="false">no</option>
    </select>
  );
}

export const yesNo = { kind: "own", Control: YesNoControl } as const;
