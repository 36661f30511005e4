import type { State } from "../../../src/care/verdict.ts";
import { Mark } from "../../parts/mark.tsx";

const marks = { sound: "done", watch: "caution", attend: "danger" } as const;

/** A state as a mark and a word together. */
export function StateMark({ state }: { state: State }) {
  return (
    <span class={`state ${state}`}>
      <Mark of={marks[state]} /> {state}
    </span>
  );
}
