import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { serverNowMs } from "../../outbox/clock.ts";

/** Seconds since the start, told anew every second. */
export function useNowS(startedAt: string): number {
  const now = useSignal(serverNowMs());
  useEffect(() => {
    const timer = setInterval(() => {
      now.value = serverNowMs();
    }, 1000);
    return () => clearInterval(timer);
  }, [now]);
  return (now.value - Date.parse(startedAt)) / 1000;
}
