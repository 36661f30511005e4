import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { type Reckoning, reckon } from "./reckoning.ts";
import type { Recorder } from "./recorder.ts";

/** Working it out may take some tenths of a second on a phone: it waits until no tap has come for a while. */
const QUIET_MS = 700;

export function useReckoning(recorder: Recorder): Reckoning | null {
  const reckoning = useSignal<Reckoning | null>(null);
  const entries = recorder.entries.value;
  useEffect(() => {
    const { engine, head } = recorder.steaming.peek();
    const timer = setTimeout(() => {
      reckoning.value = reckon(engine, head, entries);
    }, QUIET_MS);
    return () => clearTimeout(timer);
  }, [entries, recorder, reckoning]);
  return reckoning.value;
}
