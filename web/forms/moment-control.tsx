import { momentFromField } from "../words/moment-from-field.ts";
import type { ControlProperties } from "./field-spec.ts";

function MomentControl({ common, value, onValue }: ControlProperties) {
  return (
    <input
      {...common}
      type="datetime-local"
      value={typeof value === "string" ? value.slice(0, 16) : ""}
      onInput={(e) => onValue(momentFromField(e.currentTarget.value) ?? undefined)}
    />
  );
}

/** A day and a time of day, at this machine's offset. */
export const aMoment = { kind: "own", Control: MomentControl } as const;
