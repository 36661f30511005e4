import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { fromShown, showing, toShown } from "../preferences/shown.ts";
import { typedNumber } from "../words/number.ts";
import { clockOf, typedTime } from "../words/time.ts";

export interface TypedReading {
  read: (text: string) => number | null;
  write: (value: number) => string;
  inputMode: "decimal" | "text";
}

export const numberReading = (unit: string): TypedReading => {
  const as = showing(unit);
  return {
    read: (text) => {
      const typed = typedNumber(text);
      return typed === null ? null : fromShown(typed, as);
    },
    write: (value) => String(Number(toShown(value, as).toPrecision(as.factor === 1 ? 15 : 6))),
    inputMode: "decimal",
  };
};

export const timeReading: TypedReading = { read: typedTime, write: clockOf, inputMode: "text" };

interface TypedProperties {
  common: { id: string; name: string };
  value: unknown;
  onValue: (value: unknown) => void;
}

const asWords = (value: unknown): string => (typeof value === "string" ? value : "");

/**
 * What is typed stays as it was typed; what it means goes into the form, and what means nothing goes there
 * as the text it is, so that it is refused by name and not lost. A value from elsewhere is written out.
 */
export function TypedControl({
  common,
  value,
  onValue,
  read,
  write,
  inputMode,
}: TypedReading & TypedProperties) {
  const written = typeof value === "number" ? write(value) : asWords(value);
  const typed = useSignal(written);
  const meaningOf = (text: string) => (text.trim() === "" ? undefined : (read(text) ?? text));
  const meaning = meaningOf(typed.value);
  const same = meaning === value || (typeof meaning === "number" && write(meaning) === written);
  useEffect(() => {
    if (!same) typed.value = written;
  }, [same, typed, written]);
  return (
    <input
      {...common}
      type="text"
      inputMode={inputMode}
      autocomplete="off"
      value={typed.value}
      onInput={(event) => {
        typed.value = event.currentTarget.value;
        onValue(meaningOf(typed.value));
      }}
    />
  );
}
